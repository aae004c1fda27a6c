using System.CommandLine;
using RadioLint.Cli.Checking;
using RadioLint.Cli.Files;
using RadioLint.Cli.Output;
using RadioLint.Cli.Terminal;

namespace RadioLint.Cli.Commands;

/// <summary>The options of `check` about findings that are known and wait.</summary>
internal sealed class BaselineOptions
{
    private readonly Option<string> baseline = new("--baseline")
    {
        HelpName = "FILE",
        Description = "findings that are known and wait: only new ones are shown and fail; `baseline` in `.radiolint.yaml` says the same",
    };

    private readonly Option<bool> adopt = new("--adopt") { Description = "write the baseline: all that is found now is known from here on" };

    public void AddTo(Command command)
    {
        command.Add(baseline);
        command.Add(adopt);
    }

    /// <summary>The option that writes, where it is given.</summary>
    public string? Wanted(ParseResult parsed) => parsed.Has(adopt) ? adopt.Name : null;

    /// <summary>Where the baselines lie, or will, as full paths.</summary>
    public IReadOnlyCollection<string> Paths(ParseResult parsed, IReadOnlyCollection<string> ofFolders, Surroundings around) =>
        parsed.Only(baseline) is { } file ? [around.FullPath(file)] : ofFolders;

    /// <summary>What is left to tell after the baseline has had its say, or has been written.</summary>
    public CheckOutcome Apply(ParseResult parsed, CheckOutcome outcome, IReadOnlyCollection<string> ofFolders, Surroundings around)
    {
        var named = Paths(parsed, ofFolders, around);
        if (parsed.Has(adopt))
            return Adopt(named, outcome, parsed, around);
        foreach (var path in named)
        {
            // One that a folder's file names may not be written yet; one that is named here and now must be there.
            if (parsed.Only(baseline) is null && !File.Exists(path))
                around.Note($"the baseline `{Shown(path, around)}` is not there yet, so all findings are new; write it with `--adopt`");
            else
                outcome = Baseline.Read(path, Shown(path, around)).Apply(outcome);
        }
        return outcome;
    }

    private static CheckOutcome Adopt(IReadOnlyCollection<string> named, CheckOutcome outcome, ParseResult parsed, Surroundings around)
    {
        if (named.Count != 1)
            throw new CannotWorkException("`--adopt` needs to know where to write", "add `--baseline FILE`, or `baseline` in `.radiolint.yaml`");
        // Half of the findings would be half a baseline.
        if (!outcome.Unread.IsEmpty || outcome.Extent.Networks == 0)
            return outcome;
        var path = named.Single();
        try
        {
            WholeFile.Replace(path, Baseline.Write(outcome));
        }
        catch (Exception fault) when (Trouble.IsOfFiles(fault))
        {
            throw new CannotWorkException($"cannot write `{Shown(path, around)}`: {Trouble.Words(fault)}");
        }
        var known = Baseline.Read(path, Shown(path, around)).Apply(outcome);
        around.Note($"{TextReport.Count(known.Known.Length, "finding")} adopted into {Shown(path, around)}");
        return known;
    }

    private static string Shown(string path, Surroundings around) => ManifestFile.Slashes(Path.GetRelativePath(around.Folder, path));
}
