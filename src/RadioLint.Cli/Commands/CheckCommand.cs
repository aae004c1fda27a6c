using System.Collections.Immutable;
using System.CommandLine;
using RadioLint.Cli.Checking;
using RadioLint.Cli.Files;
using RadioLint.Cli.Output;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;

namespace RadioLint.Cli.Commands;

/// <summary>`check`: what is wrong with the manifests.</summary>
internal sealed class CheckCommand
{
    private readonly Argument<string[]> places = new("places")
    {
        HelpName = "FILE|FOLDER|-",
        Description = "manifests; a folder means every *.radio.yaml and *.radio.json below it, - means standard input, nothing means this folder",
        Arity = ArgumentArity.ZeroOrMore,
    };

    private readonly Choice<Form> form = new("--format", "text for people and editors, json for programs (docs/json-output.md), sarif 2.1.0 and junit for services", ("text", Form.Text), ("json", Form.Json), ("sarif", Form.Sarif), ("junit", Form.Junit));

    private readonly Choice<Severity?> failOn = new(
        "--fail-on", "the weakest finding that makes the exit status 1",
        ("error", Severity.Error), ("warning", Severity.Warning), ("info", Severity.Info), ("none", null));

    private readonly CheckTermsOptions terms = new();
    private readonly MendOptions mending = new();
    private readonly BaselineOptions baselines = new();

    private readonly Option<string> inputName = new("--stdin-name")
    {
        HelpName = "FILE",
        Description = "the file that standard input stands for: named in findings, its folder searched for includes and `.radiolint.yaml`",
    };

    private readonly Option<bool> showEffective = new("--show-effective") { Description = "print the manifest with every default filled in; findings go to standard error" };
    private readonly Option<bool> timings = new("--timings") { Description = "say what reading and each rule cost, on standard error after the findings" };

    private readonly Option<bool> watch = new("--watch") { Description = "stay, look again whenever a file is saved, and tell what came and what went; Ctrl-C ends it" };

    private enum Form
    {
        Text,
        Json,
        Sarif,
        Junit,
    }

    public static Verb Make()
    {
        var check = new CheckCommand();
        var command = new Command("check", "finds what is wrong with a network before it is built") { check.places, check.form.Option, check.failOn.Option };
        check.mending.AddTo(command);
        check.baselines.AddTo(command);
        check.terms.AddTo(command);
        command.Add(check.inputName);
        command.Add(check.showEffective);
        command.Add(check.timings);
        command.Add(check.watch);
        return new(command, Examples, Remarks, check.Run);
    }

    private ExitStatus Run(ParseResult parsed, Surroundings around)
    {
        if (parsed.Has(watch))
            return Watch(parsed, around);
        var unread = new List<Unread>();
        var files = Find(parsed, around, unread);
        var asked = terms.Read(parsed, around) with { Timings = parsed.Has(timings) ? new(around.Clock) : null };
        var mender = mending.Read(parsed, asked with { Timings = null }, around);
        var run = new CheckRun(asked, around);
        var (shape, level) = (form.Read(parsed), failOn.Read(parsed));
        if (parsed.Has(showEffective))
            ShowEffective(files, shape, mender, run, around);
        else
            run.CheckAll(files, mender is null ? null : mender.Mend);
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
        var status = Status(outcome, level, around);
        around.Results.Flush();
        asked.Timings?.Write(around.Notes);
        return status;
    }

    private ExitStatus Watch(ParseResult parsed, Surroundings around)
    {
        if (form.Read(parsed) is not Form.Text)
            throw new CannotWorkException("`--watch` tells differences, so it goes with `--format text` only");
        if (parsed.All(places).Contains(ManifestFile.StandardInput, StringComparer.Ordinal))
            throw new CannotWorkException("`--watch` looks at files, and standard input is none", "name a file or a folder");
        if ((mending.Wanted(parsed) ?? baselines.Wanted(parsed) ?? (parsed.Has(showEffective) ? showEffective.Name : null)) is { } other)
            throw new CannotWorkException($"`--watch` only looks, so it does not go with `{other}`");
        var asked = terms.Read(parsed, around);
        var report = new TextReport(around.Results, new(around.HasColour), around.Width);
        var last = new WatchRun(Once, () => Find(parsed, around, []), report, around).Run(outcome =>
        {
            NoteUnread(outcome, around);
            WriteText(outcome, report);
        });
        return last is null ? ExitStatus.NotDone : Weigh(last, failOn.Read(parsed));

        Look Once()
        {
            var unread = new List<Unread>();
            var files = Find(parsed, around, unread);
            var timed = asked with { Timings = parsed.Has(timings) ? new(around.Clock) : null };
            var run = new CheckRun(timed, around);
            run.CheckAll(files);
            var outcome = baselines.Apply(parsed, run.Outcome(unread), run.Baselines, around);
            timed.Timings?.Write(around.Notes);
            return new(outcome, files, [.. run.Asked, .. baselines.Paths(parsed, run.Baselines, around)]);
        }
    }

    private IReadOnlyList<ManifestFile> Find(ParseResult parsed, Surroundings around, List<Unread> unread) =>
        ManifestFinder.Find(parsed.All(places).DefaultIfEmpty("."), parsed.Only(inputName), around, unread);

    private static void ShowEffective(IReadOnlyCollection<ManifestFile> files, Form shape, Mender? mender, CheckRun run, Surroundings around)
    {
        Refuse(files, shape);
        foreach (var file in files)
        {
            if (run.Check(file, mender is null ? null : mender.Mend) is var (bytes, result))
                EffectiveText.Write(around.Results, file, bytes, result);
        }
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
        return Weigh(outcome, level);
    }

    private static ExitStatus Weigh(CheckOutcome outcome, Severity? level) =>
        level is { } least && outcome.Findings.Any(finding => finding.Severity >= least) ? ExitStatus.Failed : ExitStatus.Passed;

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
        new Example("radiolint check hives.radio.yaml --watch", "beside an editor: tells after each save what came and what went"),
        new Example("radiolint check --timings > findings.txt", "which rules take the time"),
        new Example("radiolint check --format sarif > findings.sarif", "for a service; --format json for a program"));

    private static readonly ImmutableArray<string> Remarks = ImmutableArray.Create(
        "Severities, the later wins: the rule's own, the nearest `.radiolint.yaml` upwards to the repository's root, the manifest's `rules`, `--rule`.",
        "Manifests with the same `site` that are checked in one run are compared with each other.",
        "Hidden folders, bin, obj, node_modules and links that lead out of a folder are passed over. Colour is for terminals only, and for none when NO_COLOR is set.",
        HelpPage.ExitStatuses);
}
