using System.Collections.Immutable;
using System.CommandLine;
using RadioLint.Cli.Checking;
using RadioLint.Cli.Files;
using RadioLint.Cli.Fill;
using RadioLint.Cli.Output;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Planning;

namespace RadioLint.Cli.Commands;

/// <summary>`fill`: chooses what a manifest leaves open, and writes it there.</summary>
internal sealed class FillCommand
{
    private readonly Argument<string> manifest = new("manifest")
    {
        HelpName = "FILE",
        Description = "the manifest; - for standard input, whose filled text goes to standard output",
        Arity = ArgumentArity.ExactlyOne,
    };

    private readonly Option<string[]> surveys = new("--survey")
    {
        HelpName = "LOG",
        Description = "what a survey heard, for the choice of the channel; may be repeated. Without it the logs that the manifest names",
        AllowMultipleArgumentsPerToken = false,
        Arity = ArgumentArity.OneOrMore,
    };

    private readonly Option<bool> dryRun = new("--dry-run") { Description = "change no file, print the difference in the form that `patch` takes" };
    private readonly Choice<bool> form = new("--format", "text for people, json for programs (docs/fill.md)", ("text", false), ("json", true));
    private readonly CheckTermsOptions terms = new();

    public static Verb Make()
    {
        var verb = new FillCommand();
        var command = new Command("fill", "chooses what a manifest leaves open and writes it there") { verb.manifest, verb.surveys, verb.dryRun, verb.form.Option };
        verb.terms.AddTo(command);
        return new(command, Examples, Remarks, verb.Run);
    }

    private ExitStatus Run(ParseResult parsed, Surroundings around)
    {
        var (isJson, isDry, place) = (form.Read(parsed), parsed.Has(dryRun), parsed.Only(manifest)!);
        if (place != ManifestFile.StandardInput && Directory.Exists(around.FullPath(place)))
            throw new CannotWorkException($"`radiolint fill` takes one manifest, and `{place}` is a folder", "name a file");
        var asked = terms.Read(parsed, around);
        var notFound = new List<Unread>();
        var file = ManifestFinder.Find([place], null, around, notFound).SingleOrDefault();
        var run = new CheckRun(asked, around);
        var read = file is null ? null : run.Check(file);
        if (CheckCommand.NoteUnread(run.Outcome(notFound), around) || read is not var (bytes, result))
            return ExitStatus.NotDone;
        if (Unreadable(result) is { Count: > 0 } faults)
            return Refuse(file!, faults, isJson, around);
        var outcome = new FillRun(asked, around, network => MeasuredChannels.Of(file!, network, [.. parsed.All(surveys)], around)).Fill(file!, bytes, result);
        if (outcome.IsChanged && !isDry && file!.Path is not null)
            Write(outcome, bytes);
        Report(outcome, bytes, isJson, isDry, around);
        return outcome.IsImpossible || outcome.IsPartial ? ExitStatus.Failed : ExitStatus.Passed;
    }

    // What is wrong with the radio plan may be why it is to be filled; what cannot be read as meant must be mended first.
    private static List<Finding> Unreadable(CheckResult result) =>
        [.. result.Findings.Where(finding => finding.Severity is Severity.Error && (result.Network is null || finding.Rule.Id.StartsWith("RL80", StringComparison.Ordinal)))];

    private static ExitStatus Refuse(ManifestFile file, List<Finding> faults, bool isJson, Surroundings around)
    {
        if (isJson)
        {
            FillJson.Write(around.Results.BaseStream, file, faults);
        }
        else
        {
            var report = new TextReport(around.Results, new(around.HasColour), around.Width);
            faults.ForEach(report.Write);
        }
        around.Note($"`{file.Name}` cannot be filled before {TextReport.Count(faults.Count, "error")} in reading it {(faults.Count == 1 ? "is" : "are")} mended");
        return ExitStatus.Failed;
    }

    private static void Write(FillOutcome outcome, byte[] original)
    {
        try
        {
            WholeFile.Replace(outcome.File.Path!, FillRun.Bytes(outcome, original));
        }
        catch (Exception fault) when (Trouble.IsOfFiles(fault))
        {
            throw new CannotWorkException($"cannot write `{outcome.File.Name}`: {Trouble.Words(fault)}");
        }
    }

    // Where the manifest or the difference is the result, what is to be said of it goes to the notes.
    private static void Report(FillOutcome outcome, byte[] original, bool isJson, bool isDry, Surroundings around)
    {
        var isInput = outcome.File.Path is null;
        if (isJson)
        {
            FillJson.Write(around.Results.BaseStream, outcome);
            return;
        }
        if (isDry && outcome.IsChanged)
            UnifiedDiff.Write(around.Results, outcome.File.Name, outcome.Before.Source.Text, outcome.Written.Text);
        around.Results.Flush();
        if (isInput && !isDry && !outcome.IsImpossible)
            around.Results.BaseStream.Write(FillRun.Bytes(outcome, original));
        FillText.Write(isDry || isInput ? around.Notes : around.Results, outcome, isWritten: !isDry);
        around.Notes.Flush();
    }

    private static readonly ImmutableArray<Example> Examples = ImmutableArray.Create(
        new Example("radiolint fill hives.radio.yaml", "choose channel, rate, power, delays, pins and all else that is open, and write it into the file"),
        new Example("radiolint fill hives.radio.yaml --dry-run", "only show what would be written, and why"),
        new Example("radiolint fill hives.radio.yaml --survey shed.log", "the channel by what was heard at the shed"),
        new Example("radiolint fill - < draft.txt > hives.radio.yaml", "from one file into another"),
        new Example("radiolint fill hives.radio.yaml --format json", "for a program; the file is written all the same"));

    private static readonly ImmutableArray<string> Remarks = ImmutableArray.Create(
        "What is written stays: only `open` is exchanged, and only keys that are missing are added, in the style of the map that they go into. Comments, order and layout are kept. docs/fill.md says what is chosen, docs/fill-cost.md by which cost.",
        "The rules of the place of use govern: a choice is no licence to send.",
        "Exit status: 0 filled, or nothing was open; 1 demands that conflict, a value that is left to you, or a manifest that cannot be read; 2 the work could not be done, 3 a defect of radiolint.");
}
