using System.Collections.Immutable;
using RadioLint.Cli.Files;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Survey;

namespace RadioLint.Cli.Survey;

/// <summary>One manifest, and the verdict for its network.</summary>
/// <param name="Channel">The channel that it should get; beside the others where several are asked for. Null when none is left.</param>
/// <param name="Reason">Why this one; null where it is simply the first of the ranking.</param>
internal sealed record SurveyedNetwork(ManifestFile File, Network Network, ChannelRanking Ranking, int? Channel, string? Reason)
{
    public string Name => Network.Name?.Value ?? File.Name;
}

/// <summary>What a run of `survey` came to.</summary>
internal sealed record SurveyOutcome(ImmutableArray<HeardLog> Logs, ImmutableArray<SurveyedNetwork> Networks, ImmutableArray<Finding> Findings);
