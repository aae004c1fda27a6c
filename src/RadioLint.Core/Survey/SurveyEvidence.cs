using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Rules.Survey;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>A log that was read, and the entry of the manifest's `survey` that names it.</summary>
public sealed record HeardLog(SurveyLog Log, Stated<SurveyFile>? Entry)
{
    /// <summary>Where to look first: the entry, or the log's first line where no entry names it.</summary>
    public Place Place => Entry?.Place.FirstLine ?? Log.Start;

    /// <summary>When it was begun; null when nobody says so.</summary>
    public DateTime? Begun => Log.Begun ?? Entry?.Value.Taken?.Value;

    public Duration? Lasted => Log.Lasted ?? Entry?.Value.Lasted?.Value;

    /// <summary>Time on each channel, and who says so: the log before the manifest.</summary>
    public (Duration Time, Place Place)? Dwell => Log.Dwell ?? (Entry?.Value.Dwell is { } stated ? (stated.Value, stated.Place) : null);
}

/// <summary>All that the rules on surveys look at.</summary>
/// <param name="Logs">In the order in which they were read; at least one.</param>
/// <param name="Proposed">Channels to offer, the best first.</param>
/// <param name="Today">The day that a survey's age is counted to; null when nobody says so.</param>
public sealed record SurveyEvidence(Network Network, ImmutableArray<HeardLog> Logs, ChannelRanking Ranking, ImmutableArray<int> Proposed, DateTime? Today)
{
    /// <summary>Evidence with the best channels that no rule on manifests finds fault with.</summary>
    public static SurveyEvidence Of(Network network, ImmutableArray<HeardLog> logs, ChannelRanking ranking, DateTime? today) =>
        new(network, logs, ranking, Proposals.Of(network, ranking), today);

    /// <summary>Everything that the rules on surveys find, as they find it; to be settled like any other findings.</summary>
    public IEnumerable<Finding> Check() => SurveyRules.Rules.SelectMany(rule => rule.Check(this));
}
