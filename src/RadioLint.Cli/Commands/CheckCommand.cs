using System.Collections.Immutable;
using System.CommandLine;
using RadioLint.Cli.Checking;
using RadioLint.Cli.Files;
using RadioLint.Cli.Output;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;

namespace RadioLint.Cli.Commands;

/// <summary>`check`: what is wrong with the manifests.</summary>
internal static class CheckCommand
{
    private enum Form
    {
        Text,
        Json,
        Sarif,
        Junit,
    }

    public static Verb Make()
    {
        var places = new Argument<string[]>("places")
        {
            HelpName = "FILE|FOLDER|-",
            Description = "manifests; a folder means every *.radio.yaml and *.radio.json below it, - means standard input, nothing means this folder",
            Arity = ArgumentArity.ZeroOrMore,
        };
        var form = new Choice<Form>("--format", "text for people and editors, json for programs (docs/json-output.md), sarif 2.1.0 and junit for services", ("text", Form.Text), ("json", Form.Json), ("sarif", Form.Sarif), ("junit", Form.Junit));
        var failOn = new Choice<Severity?>(
            "--fail-on", "the weakest finding that makes the exit status 1",
            ("error", Severity.Error), ("warning", Severity.Warning), ("info", Severity.Info), ("none", null));
        var terms = new CheckTermsOptions();
        var mending = new MendOptions();
        var baselines = new BaselineOptions();
        var inputName = new Option<string>("--stdin-name")
        {
            HelpName = "FILE",
            Description = "the file that standard input stands for: named in findings, its folder searched for includes and `.radiolint.yaml`",
        };
        var showEffective = new Option<bool>("--show-effective")
        {
            Description = "print the manifest with every default filled in; findings go to standard error",
        };
        var command = new Command("check", "finds what is wrong with a network before it is built") { places, form.Option, failOn.Option };
        mending.AddTo(command);
        baselines.AddTo(command);
        terms.AddTo(command);
        command.Add(inputName);
        command.Add(showEffective);
        return new(command, Examples, Remarks, (parsed, around) =>
        {
            var unread = new List<Unread>();
            var named = parsed.All(places).DefaultIfEmpty(".");
            var files = ManifestFinder.Find(named, parsed.Only(inputName), around, unread);
            var asked = terms.Read(parsed, around);
            var mender = mending.Read(parsed, asked, around);
            var run = new CheckRun(asked, around);
            var (shape, level) = (form.Read(parsed), failOn.Read(parsed));
            if (parsed.Has(showEffective))
                Refuse(files, shape);
            foreach (var file in files)
            {
                if (run.Bytes(file) is not { } written)
                    continue;
                var bytes = mender?.Mend(file, written) ?? written;
                var result = run.Check(file, bytes);
                if (parsed.Has(showEffective))
                    EffectiveText.Write(around.Results, file, bytes, result);
            }
            var outcome = baselines.Apply(parsed, run.Outcome(unread), run.Baselines, around);
            if (mender is { IsDry: true })
                return Status(outcome, level, around);
            if (parsed.Has(showEffective))
            {
                around.Results.Flush();
                WriteText(outcome, new(around.Notes, Paint.None));
            }
            else
            {
                Report(outcome, shape, around);
            }
            return Status(outcome, level, around);
        });
    }

    private static void Refuse(IReadOnlyCollection<ManifestFile> files, Form form)
    {
        if (form is not Form.Text)
            throw new CannotWorkException("`--show-effective` prints a manifest, so it goes with `--format text` only");
        if (files.Count > 1)
            throw new CannotWorkException(FormattableString.Invariant($"`--show-effective` takes one manifest, and {files.Count} are meant"), "name one of them");
    }

    private static void Report(CheckOutcome outcome, Form form, Surroundings around)
    {
        switch (form)
        {
            case Form.Json:
                JsonReport.Write(around.Results.BaseStream, outcome);
                break;
            case Form.Sarif:
                SarifReport.Write(around.Results.BaseStream, outcome);
                break;
            case Form.Junit:
                JunitReport.Write(around.Results.BaseStream, outcome);
                break;
            case Form.Text:
            default:
                WriteText(outcome, new(around.Results, new(around.HasColour), around.Width));
                break;
        }
    }

    private static void WriteText(CheckOutcome outcome, TextReport report)
    {
        foreach (var finding in outcome.Findings)
            report.Write(finding);
        // Nothing read is nothing checked: then the notes say all.
        if (outcome.Extent.Networks > 0 || outcome.Unreadable > 0)
            report.WriteSummary(outcome);
    }

    private static ExitStatus Status(CheckOutcome outcome, Severity? level, Surroundings around)
    {
        if (NoteUnread(outcome, around))
            return ExitStatus.NotDone;
        return level is { } least && outcome.Findings.Any(finding => finding.Severity >= least) ? ExitStatus.Failed : ExitStatus.Passed;
    }

    /// <summary>Says what could not be read; true when there is any.</summary>
    public static bool NoteUnread(CheckOutcome outcome, Surroundings around)
    {
        foreach (var (file, reason) in outcome.Unread)
            around.Note($"cannot read `{file}`: {reason}");
        return !outcome.Unread.IsEmpty;
    }

    private static readonly ImmutableArray<Example> Examples = ImmutableArray.Create(
        new Example("radiolint check", "every manifest below this folder"),
        new Example("radiolint check hives.radio.yaml --fail-on warning", "one manifest; a warning fails it as well"),
        new Example("radiolint check --rule RL8304=silent --rule RL3201=error", "without the list of missing facts, and stricter about one rule"),
        new Example("radiolint check - --stdin-name hives.radio.yaml < unsaved.txt", "a text that is not in its file yet, as an editor does it"),
        new Example("radiolint check hives.radio.yaml --show-effective > full.radio.yaml", "what the manifest says with every default written out"),
        new Example("radiolint check hives.radio.yaml --fix --dry-run", "what the safe edits would change; without --dry-run they are made"),
        new Example("radiolint check hives.radio.yaml --baseline known.json --adopt", "begin with a network that works: from here on only new findings fail"),
        new Example("radiolint check --format sarif > findings.sarif", "for a service; --format json for a program"));

    private static readonly ImmutableArray<string> Remarks = ImmutableArray.Create(
        "Severities, the later wins: the rule's own, the nearest `.radiolint.yaml` upwards to the repository's root, the manifest's `rules`, `--rule`.",
        "Hidden folders, bin, obj, node_modules and links that lead out of a folder are passed over. Colour is for terminals only, and for none when NO_COLOR is set.",
        HelpPage.ExitStatuses);
}
