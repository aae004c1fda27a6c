using System.Collections.Immutable;
using System.CommandLine;
using RadioLint.Cli.Checking;
using RadioLint.Cli.Emit;
using RadioLint.Cli.Files;
using RadioLint.Cli.Output;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;

namespace RadioLint.Cli.Commands;

/// <summary>`emit`: the headers of a network in which `check` finds no error.</summary>
internal sealed class EmitCommand
{
    // Open settings are for information while a network is planned; nothing can be flashed with them.
    private const string StillOpen = "RL8305";

    private readonly Argument<string> manifest = new("manifest")
    {
        HelpName = "FILE",
        Description = "the manifest; the record of what was issued is kept beside it",
        Arity = ArgumentArity.ExactlyOne,
    };

    private readonly Option<string> output = new("--out") { HelpName = "DIR", Description = "the folder for the headers; made when it is missing" };

    private readonly Option<string[]> nodes = new("--node")
    {
        HelpName = "NAME",
        Description = "only this node or group; may be repeated",
        AllowMultipleArgumentsPerToken = false,
        Arity = ArgumentArity.OneOrMore,
    };

    private readonly Option<bool> programs = new("--programs")
    {
        Description = "bring-up, survey and gateway programs as well, with hooks for AVR boards and a Makefile",
    };

    private readonly Option<string> templates = new("--templates") { HelpName = "DIR", Description = "templates of your own; a file takes the place of the built-in one of its name" };
    private readonly Option<string> depfile = new("--depfile") { HelpName = "FILE", Description = "write what the headers depend on, for make and ninja" };
    private readonly Option<string> made = new("--made") { HelpName = "FILE", Description = "list what was made, one path a line" };
    private readonly Option<string> read = new("--read") { HelpName = "FILE", Description = "list what it was made from, one path a line" };
    private readonly Option<bool> checkOnly = new("--check") { Description = "write nothing; list what is stale, edited by hand or left over" };
    private readonly Option<bool> force = new("--force") { Description = "overwrite files that were edited by hand" };
    private readonly Choice<Form> form = new("--format", "text for people and editors, build for MSBuild", ("text", Form.Text), ("build", Form.Build));
    private readonly CheckTermsOptions terms = new();

    private enum Form
    {
        Text,
        Build,
    }

    public static Verb Make()
    {
        var emit = new EmitCommand();
        var command = new Command("emit", "writes one matched C header for each node, and programs for the bench")
        {
            emit.manifest, emit.output, emit.nodes, emit.programs, emit.templates, emit.depfile, emit.made, emit.read, emit.checkOnly, emit.force, emit.form.Option,
        };
        emit.terms.AddTo(command);
        return new(command, Examples, Remarks, emit.Run);
    }

    private ExitStatus Run(ParseResult parsed, Surroundings around)
    {
        var folder = parsed.Only(output) ?? throw new CannotWorkException("`radiolint emit` needs a folder for the headers", "add `--out DIR`");
        var shape = form.Read(parsed);
        var asked = terms.Read(parsed, around);
        var run = new CheckRun(asked with { Severities = asked.Severities.SetItem(StillOpen, Severity.Error) }, around);
        var file = File(parsed.Only(manifest)!, around, out var notFound);
        var network = file is null ? null : run.Check(file)?.Result.Network;
        var outcome = run.Outcome(notFound);
        if (CheckCommand.NoteUnread(outcome, around))
            return ExitStatus.NotDone;
        var errors = outcome.Findings.Where(finding => finding.Severity is Severity.Error).ToList();
        if (network is null || errors.Count > 0)
            return Refuse(errors, shape, around);
        var options = new EmitOptions
        {
            Manifest = file!.Name,
            Out = folder,
            Nodes = [.. parsed.All(nodes)],
            Programs = parsed.Has(programs),
            Templates = parsed.Only(templates),
            Depfile = parsed.Only(depfile),
            MadeList = parsed.Only(made),
            ReadList = parsed.Only(read),
            CheckOnly = parsed.Has(checkOnly),
            Force = parsed.Has(force),
            AlsoRead = [.. run.AlsoRead.Distinct(StringComparer.Ordinal)],
        };
        var report = Execute(network, options);
        return Report(report with { OfFiles = run.Settle(file, network, report.OfFiles) }, options, shape, around);
    }

    private static ManifestFile? File(string place, Surroundings around, out List<Unread> notFound)
    {
        notFound = [];
        if (place == ManifestFile.StandardInput)
            throw new CannotWorkException("`radiolint emit` keeps a record beside the manifest, so it cannot take standard input", "name a file");
        if (Directory.Exists(around.FullPath(place)))
            throw new CannotWorkException($"`{place}` is a folder, and `radiolint emit` takes one manifest", "name a file");
        return ManifestFinder.Find([place], null, around, notFound).SingleOrDefault();
    }

    private static EmitReport Execute(Model.Network network, EmitOptions options)
    {
        try
        {
            return EmitRun.Execute(network, options);
        }
        catch (Exception fault) when (Trouble.IsOfFiles(fault))
        {
            throw new CannotWorkException($"cannot bring `{options.Out}` and the record beside `{options.Manifest}` up to date: {Trouble.Words(fault)}");
        }
    }

    private static ExitStatus Refuse(List<Finding> errors, Form shape, Surroundings around)
    {
        Write(errors, shape, around);
        around.Note($"nothing is written: {TextReport.Count(errors.Count, "error")} to mend first");
        return ExitStatus.Failed;
    }

    private static void Write(IEnumerable<Finding> findings, Form shape, Surroundings around)
    {
        var report = new TextReport(around.Results, new Paint(around.HasColour), around.Width);
        foreach (var finding in findings)
        {
            if (shape is Form.Build)
                BuildReport.Write(around.Results, finding);
            else
                report.Write(finding);
        }
    }

    private static ExitStatus Report(EmitReport report, EmitOptions options, Form shape, Surroundings around)
    {
        if (report.UnknownNodes is [var (name, nearest), ..])
            throw new CannotWorkException($"the manifest has no node or group `{name}`", nearest is null ? null : $"the nearest is `{nearest}`");
        var errors = report.Findings.Where(finding => finding.Severity is Severity.Error).ToList();
        if (errors.Count > 0)
            return Refuse(errors, shape, around);
        Write(report.OfFiles, shape, around);
        EmitSummary.Write(around.Results, report, options);
        // Where only a look was asked for, severities decide; where files were not written, they were not written.
        var isRight = options.CheckOnly ? !report.OfFiles.Any(finding => finding.Severity is Severity.Error) : report.IsCurrent;
        return isRight ? ExitStatus.Passed : ExitStatus.Failed;
    }

    private static readonly ImmutableArray<Example> Examples = ImmutableArray.Create(
        new Example("radiolint emit hives.radio.yaml --out firmware", "a header for each node, into the folder firmware"),
        new Example("radiolint emit hives.radio.yaml --out firmware --node hive", "only those of the group hive"),
        new Example("radiolint emit hives.radio.yaml --out firmware --programs", "with programs to bring the nodes up, look for a quiet channel and watch the air"),
        new Example("radiolint emit hives.radio.yaml --out firmware --check", "in a build: is what lies in firmware what the manifest says?"));

    private static readonly ImmutableArray<string> Remarks = ImmutableArray.Create(
        "Writes nothing while `radiolint check` finds an error, or while channel, rate or an order of fields is still open. Files that are right already are left untouched.",
        "Exit status: 0 all files hold what they should, 1 errors in the manifest, files that are stale (`--check`) or edited by hand, 2 the work could not be done, 3 a defect of radiolint.");
}
