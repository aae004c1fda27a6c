using System.Collections.Immutable;
using System.CommandLine;
using RadioLint.Cli.Terminal;

namespace RadioLint.Cli.Commands;

/// <summary>All commands, and the way from the command line to one of them.</summary>
internal static class Verbs
{
    /// <summary>Runs a command line; all that can go wrong ends here in one line and a status.</summary>
    public static ExitStatus Run(string[] args, Surroundings around)
    {
        try
        {
            var status = Dispatch(args, around);
            around.Results.Flush();
            return status;
        }
        catch (CannotWorkException refusal)
        {
            around.Note(refusal.Advice is null ? refusal.Message : $"{refusal.Message}; {refusal.Advice}");
            return ExitStatus.NotDone;
        }
        catch (IOException fault) when (fault is not FileNotFoundException)
        {
            // Files have their faults caught where they are read or written, so this is the way out of the process.
            WriteNote(around, $"cannot write the results: {Trouble.Words(fault)}");
            return ExitStatus.NotDone;
        }
        catch (Exception defect)
        {
            WriteNote(around, $"this is a defect of radiolint {ProductVersion.Text}, not of your files ({defect.GetType().Name}); report it to the project's issue tracker with the command and the manifest");
            if (args.Contains("--debug", StringComparer.Ordinal))
                WriteNote(around, defect.ToString());
            return ExitStatus.Defect;
        }
    }

    private static ExitStatus Dispatch(string[] args, Surroundings around)
    {
        var verbs = ImmutableArray.Create(
            StartCommand.Make(), SurveyCommand.Make(), FillCommand.Make(), CheckCommand.Make(), EmitCommand.Make(), ReadbackCommand.Make(), ExplainCommand.Make(),
            SchemaCommand.Make());
        var (help, version) = (Help(), Version());
        var root = Root(verbs, help, version);
        var parsed = root.Parse(args, new() { EnablePosixBundling = false, ResponseFileTokenReplacer = null });
        var verb = verbs.FirstOrDefault(each => each.Command == parsed.CommandResult.Command);
        if (parsed.Has(help))
        {
            HelpPage.Write(around.Results, root, verb, verbs);
            return ExitStatus.Passed;
        }
        if (verb is null && args.Length == 0)
        {
            HelpPage.Write(around.Notes, root, verb, verbs);
            around.Notes.Flush();
            return ExitStatus.NotDone;
        }
        if (verb is null && parsed.Has(version) && parsed.Errors.All(error => error.SymbolResult is System.CommandLine.Parsing.CommandResult))
        {
            around.Results.WriteLine($"radiolint {ProductVersion.Text}");
            return ExitStatus.Passed;
        }
        Misuse.Refuse(args, parsed, root);
        return verb!.Run(parsed, around);
    }

    private static RootCommand Root(ImmutableArray<Verb> verbs, Option help, Option version)
    {
        var root = new RootCommand("finds faults in a plan of a 2.4 GHz packet radio network and writes its matched headers");
        // The library's own help, version and directives speak and look differently.
        root.Options.Clear();
        root.Directives.Clear();
        root.Add(help);
        root.Add(version);
        root.Add(Debug());
        foreach (var verb in verbs)
            root.Add(verb.Command);
        return root;
    }

    // The results may be what cannot be written: no flush before the note.
    private static void WriteNote(Surroundings around, string text)
    {
        around.Notes.WriteLine($"radiolint: {text}");
        around.Notes.Flush();
    }

    private static Option<bool> Help() => new("--help", "-h", "-?") { Description = "this page", Recursive = true };
    private static Option<bool> Debug() => new("--debug") { Description = "show where a defect of radiolint itself was met", Recursive = true };
    private static Option<bool> Version() => new("--version") { Description = "the version" };
}
