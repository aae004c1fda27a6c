using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using RadioLint.Cli.Files;
using RadioLint.Cli.Readback;
using RadioLint.Cli.Survey;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;
using RadioLint.Units;

namespace RadioLint.Cli.Commands;

/// <summary>`survey`: from what was heard of the band to the channel to use.</summary>
internal sealed class SurveyCommand
{
    private const int LongestMinutes = 1_440;
    private const int LongestPlace = RadioLint.Survey.SurveyLimits.LongestPlace;

    private readonly Argument<string[]> files = new("files")
    {
        HelpName = "FILE",
        Description = "the manifest, or several of one site, then logs: files, or - for standard input; without a log those that `survey` of the manifest names",
        Arity = ArgumentArity.OneOrMore,
    };

    private readonly Option<string> port = new("--port") { HelpName = "DEVICE", Description = "listen to a serial port instead, whose board runs the survey program" };
    private readonly Option<string> minutes = new("--minutes") { HelpName = "NUMBER", Description = "how long a port is listened to; 20 unless said. Ctrl-C ends it early and judges what came" };
    private readonly Option<string> baud = new("--baud") { HelpName = "NUMBER", Description = "its speed; the one that the manifest plans when that is clear" };
    private readonly Option<string> place = new("--place") { HelpName = "NAME", Description = "the node or place at which the logs were taken, whatever they say" };
    private readonly Option<string> started = new("--started") { HelpName = "TIME", Description = "when a log without dates was begun, such as 2026-05-02T18:30" };
    private readonly Option<string> threshold = new("--threshold") { HelpName = "DBM", Description = "the level from which a channel counts as busy, for logs of levels; the threshold of the radio's own detector unless said" };
    private readonly Option<string> plot = new("--plot") { HelpName = "FILE.svg", Description = "write the picture of the band as SVG as well" };
    private readonly Choice<bool> form = new("--format", "text for people, json for programs (docs/json-output.md)", ("text", false), ("json", true));
    private readonly Choice<Severity?> failOn = new(
        "--fail-on", "the weakest finding that makes the exit status 1",
        ("error", Severity.Error), ("warning", Severity.Warning), ("info", Severity.Info), ("none", null));
    private readonly CheckTermsOptions terms = new();

    public static Verb Make()
    {
        var verb = new SurveyCommand();
        var command = new Command("survey", "ranks the channels by what was heard in the band")
        {
            verb.files, verb.port, verb.minutes, verb.baud, verb.place, verb.started, verb.threshold, verb.plot, verb.form.Option, verb.failOn.Option,
        };
        verb.terms.AddTo(command);
        return new(command, Examples, Remarks, verb.Run);
    }

    private ExitStatus Run(ParseResult parsed, Surroundings around)
    {
        var (isJson, level) = (form.Read(parsed), failOn.Read(parsed));
        // The first is a manifest by its place, further ones by their names.
        var all = parsed.All(files).ToList();
        var manifests = all.Where((file, at) => at == 0 || ManifestFile.HasItsName(file)).ToList();
        var wanted = new SurveyWish
        {
            Manifests = manifests, Logs = all.Skip(1).Where(file => !ManifestFile.HasItsName(file)).ToList(), Port = parsed.Only(port),
            Minutes = parsed.Number(minutes, LongestMinutes), Baud = parsed.Number(baud, SerialLine.FastestBaud),
            Place = Place(parsed.Only(place)), Started = Started(parsed.Only(started)), Threshold = Threshold(parsed.Only(threshold)),
        };
        if (wanted.Port is null && (wanted.Minutes is not null || wanted.Baud is not null))
            throw new CannotWorkException("`--minutes` and `--baud` go with `--port`");
        if (wanted.Port is not null && wanted.Logs.Count > 0)
            throw new CannotWorkException("`--port` takes the place of logs", "see `radiolint survey --help`");
        var run = new SurveyRun(terms.Read(parsed, around), wanted, around);
        if (run.Execute() is not { } outcome)
            return run.Trouble;
        if (parsed.Only(plot) is { } picture)
            Plot(picture, outcome, around);
        if (isJson)
            SurveyJson.Write(around.Results.BaseStream, outcome);
        else
            SurveyText.Write(around.Results, outcome, new(around.HasColour), around.Width);
        return level is { } least && outcome.Findings.Any(finding => finding.Severity >= least) ? ExitStatus.Failed : ExitStatus.Passed;
    }

    private static void Plot(string file, SurveyOutcome outcome, Surroundings around)
    {
        try
        {
            WholeFile.Replace(file.Contains('\0') ? throw new CannotWorkException("the plot's name is no path") : around.FullPath(file), SurveyPlot.Draw(outcome.Networks));
        }
        catch (Exception fault) when (Trouble.IsOfFiles(fault))
        {
            throw new CannotWorkException($"cannot write `{ManifestFile.Slashes(file)}`: {Trouble.Words(fault)}");
        }
    }

    private static string? Place(string? written) => written is null or { Length: > 0 and <= LongestPlace }
        ? written
        : throw new CannotWorkException(FormattableString.Invariant($"`--place` takes a name of at most {LongestPlace} characters"));

    private static DateTime? Started(string? written)
    {
        if (written is null)
            return null;
        return DateTime.TryParseExact(written, ["yyyy-MM-dd HH:mm", "yyyy-MM-dd HH:mm:ss", "yyyy-MM-ddTHH:mm", "yyyy-MM-ddTHH:mm:ss"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var time)
            ? time
            : throw new CannotWorkException($"`--started` takes a time such as \"2026-05-02 18:30\", not `{written}`");
    }

    private static PowerLevel? Threshold(string? written)
    {
        if (written is null)
            return null;
        var digits = written.EndsWith(" dBm", StringComparison.Ordinal) ? written[..^4] : written;
        return Quantity.TryNumber(digits, out var number) && number is >= -200 and <= 30 && number * 100 == decimal.Truncate(number * 100)
            ? new PowerLevel((int)(number * 100))
            : throw new CannotWorkException($"`--threshold` takes a level in dBm such as -64, not `{written}`");
    }

    private static readonly ImmutableArray<Example> Examples = ImmutableArray.Create(
        new Example("radiolint survey hives.radio.yaml", "the logs that the manifest names"),
        new Example("radiolint survey hives.radio.yaml shed.log hive-1.log", "what a terminal has saved of the survey program's reports, at two nodes"),
        new Example("radiolint survey hives.radio.yaml a.csv --place shed --threshold -70", "a table of any other program, of levels in dBm"),
        new Example("radiolint survey hives.radio.yaml --port /dev/ttyUSB0 --minutes 20", "live, with the picture of the band while it listens"),
        new Example("radiolint survey hives.radio.yaml barn.radio.yaml shed.log", "two networks of one site: each gets a channel, clear of the other"),
        new Example("radiolint survey hives.radio.yaml --plot band.svg --format json", "for a report, and for a program"));

    private static readonly ImmutableArray<string> Remarks = ImmutableArray.Create(
        "Reads `rl1 sweep` reports (docs/firmware.md) and tables with a header, one row a sample or one row a sweep (docs/survey.md). Broken lines are counted and passed over.",
        "Channels that leave the region's band, and those that `avoid` keeps free, are not ranked; listening there is allowed, sending is not. The rules of the place of use govern.",
        "A survey's age is counted to the day of `--today`.",
        HelpPage.ExitStatuses);
}
