using System.Collections.Immutable;
using RadioLint.Cli.Checking;
using RadioLint.Cli.Commands;
using RadioLint.Cli.Files;
using RadioLint.Cli.Output;
using RadioLint.Cli.Readback;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Survey;
using RadioLint.Units;

namespace RadioLint.Cli.Survey;

/// <summary>What is asked of a survey.</summary>
internal sealed record SurveyWish
{
    public required IReadOnlyList<string> Manifests { get; init; }
    public required IReadOnlyList<string> Logs { get; init; }
    public string? Port { get; init; }
    public int? Minutes { get; init; }
    public int? Baud { get; init; }
    public string? Place { get; init; }
    public DateTime? Started { get; init; }
    public PowerLevel? Threshold { get; init; }
}

/// <summary>From manifests and logs to the verdict.</summary>
internal sealed class SurveyRun(CheckTerms asked, SurveyWish wish, Surroundings around)
{
    private const int UsualMinutes = 20;

    private readonly CheckRun check = new(asked, around);

    /// <summary>The status of a run without an outcome.</summary>
    public ExitStatus Trouble { get; private set; } = ExitStatus.Failed;

    /// <summary>The verdict; null when a manifest does not read, which has been told.</summary>
    /// <exception cref="CannotWorkException">There is nothing to judge.</exception>
    public SurveyOutcome? Execute()
    {
        if (Manifests() is not { } manifests)
            return null;
        var gathering = new SurveyGathering();
        var terms = new SurveyTerms
        {
            Place = wish.Place, Started = wish.Started,
            Threshold = wish.Threshold ?? SurveySources.ThresholdOf(manifests.Select(one => one.Network)) ?? new SurveyTerms().Threshold,
        };
        var logs = wish.Port is { } device ? [Listen(device, manifests, terms, gathering)] : ReadAll(manifests, terms, gathering);
        if (gathering.Places.Count == 0)
            throw Nothing(logs);
        var networks = Judge(manifests, gathering);
        return new(logs, networks, Findings(networks, logs));
    }

    private IReadOnlyList<(ManifestFile File, Network Network)>? Manifests()
    {
        foreach (var place in wish.Manifests)
        {
            if (place == ManifestFile.StandardInput || Directory.Exists(around.FullPath(place)))
                throw new CannotWorkException($"`radiolint survey` takes a manifest first, and `{place}` is none", "name a file; standard input is for a log");
        }
        var notFound = new List<Unread>();
        var files = ManifestFinder.Find(wish.Manifests, null, around, notFound);
        var results = check.CheckKept(files);
        var outcome = check.Outcome(notFound);
        if (CheckCommand.NoteUnread(outcome, around))
        {
            Trouble = ExitStatus.NotDone;
            return null;
        }
        var errors = outcome.Findings.Where(finding => finding.Severity is Severity.Error).ToList();
        var isRead = results.All(result => result?.Network is not null);
        if (!isRead)
        {
            var report = new TextReport(around.Results, new(around.HasColour), around.Width);
            errors.ForEach(report.Write);
        }
        // A plan with errors can still be surveyed for; what cannot be read cannot.
        if (errors.Count > 0)
        {
            var names = string.Join(" ", files.Select(file => file.Name));
            around.Note($"{(files.Count == 1 ? "the manifest has" : "the manifests have")} {TextReport.Count(errors.Count, "error")}: `radiolint check {names}`");
        }
        return isRead ? [.. files.Zip(results, (file, result) => (file, result!.Network!))] : null;
    }

    private ImmutableArray<HeardLog> ReadAll(IReadOnlyList<(ManifestFile File, Network Network)> manifests, SurveyTerms terms, SurveyGathering gathering)
    {
        ImmutableArray<HeardLog> logs = [.. SurveySources.Find(wish.Logs, manifests, around).Select(source => SurveySources.Read(source, terms, gathering, around))];
        foreach (var log in logs.Where(log => log.Log.Sweeps == 0))
            around.Note($"`{log.Log.Name}` is not used: {WhyNothing(log.Log)}");
        foreach (var log in logs.Where(log => log.Log.Sweeps > 0 && log.Begun is null))
            around.Note($"`{log.Log.Name}` does not tell when it was taken: add `--started \"YYYY-MM-DD HH:MM\"`, or `taken` to the manifest's `survey`");
        return [.. logs.Where(log => log.Log.Sweeps > 0 || logs.All(one => one.Log.Sweeps == 0))];
    }

    private HeardLog Listen(string device, IReadOnlyList<(ManifestFile File, Network Network)> manifests, SurveyTerms terms, SurveyGathering gathering)
    {
        var speed = wish.Baud ?? ReadbackNodes.PlannedSpeed(manifests[0].Network, null);
        var most = TimeSpan.FromMinutes(wish.Minutes ?? UsualMinutes);
        var reader = gathering.Open(ManifestFile.Slashes(device), terms with { Started = around.Clock.GetLocalNow().DateTime });
        string? why;
        using (var line = SerialLine.Open(device, OperatingSystem.IsWindows() ? device : around.FullPath(device), speed))
        {
            around.Note(FormattableString.Invariant($"listening to {line} for {most.TotalMinutes:0} min; Ctrl-C ends early, and what came is judged"));
            why = new SurveyListening(line, reader, new(most, () => SurveyJudgement.Rank(manifests[0].Network, gathering.Places), around), around).Run(most);
        }
        var log = reader.End();
        if (log.Sweeps == 0)
            throw new CannotWorkException(why is null || log.FirstBroken is not null ? $"`{log.Name}`: {WhyNothing(log)}" : why);
        if (why is not null)
            around.Note($"{why}; {FormattableString.Invariant($"{log.Sweeps} sweep{(log.Sweeps == 1 ? "" : "s")}")} came and {(log.Sweeps == 1 ? "is" : "are")} judged");
        return new(log, null);
    }

    private static ImmutableArray<SurveyedNetwork> Judge(IReadOnlyList<(ManifestFile File, Network Network)> manifests, SurveyGathering gathering)
    {
        if (manifests is [var (file, network)])
        {
            var ranking = SurveyJudgement.Rank(network, gathering.Places);
            return [new(file, network, ranking, ranking.Ranked.FirstOrDefault()?.Channel, null)];
        }
        var placed = SurveyJudgement.RankTogether([.. manifests.Select(one => one.Network)], gathering.Places);
        return [.. placed.Zip(manifests, (one, manifest) => new SurveyedNetwork(manifest.File, one.Network, one.Ranking, one.Channel, one.Reason))];
    }

    // What is true of a log is found for each network, and told once.
    private ImmutableArray<Finding> Findings(ImmutableArray<SurveyedNetwork> networks, ImmutableArray<HeardLog> logs) =>
    [
        .. networks.SelectMany(one => check.Settle(one.File, one.Network, Evidence(one, logs, networks.Length > 1).Check()))
            .DistinctBy(finding => (finding.Rule.Id, finding.Place.Source.Name, finding.Place.From, finding.Message)),
    ];

    private SurveyEvidence Evidence(SurveyedNetwork one, ImmutableArray<HeardLog> logs, bool isOneOfSeveral)
    {
        var evidence = SurveyEvidence.Of(one.Network, logs, one.Ranking, asked.Today);
        // Beside others only the channel that leaves them theirs is offered.
        return isOneOfSeveral ? evidence with { Proposed = one.Channel is { } channel ? [channel] : [] } : evidence;
    }

    private static CannotWorkException Nothing(ImmutableArray<HeardLog> logs) => new(
        $"no sweep is in {(logs.Length == 1 ? $"`{logs[0].Log.Name}`" : TextReport.Count(logs.Length, "log"))}", "see docs/survey.md for the forms that are read");

    private static string WhyNothing(SurveyLog log) => log.FirstBroken is var (place, fault)
        ? FormattableString.Invariant($"no line of it is a sweep; line {place.From.Line}, column {place.From.Column}: {fault}")
        : FormattableString.Invariant($"it holds no `rl1 sweep` report and no table with a header in {TextReport.Count(log.Lines, "line")}");
}
