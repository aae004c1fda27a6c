using System.Collections.Immutable;
using RadioLint.Findings;

namespace RadioLint.Rules.Survey;

/// <summary>Every rule on surveys, written out by hand.</summary>
public static class SurveyRules
{
    public static ImmutableArray<SurveyRule> Rules { get; } = ImmutableArray.Create<SurveyRule>(
        new SurveyOldOrNarrow(), new DwellTooShort(), new BelowTheDetector(), new PlannedChannelBusy(), new OwnTrafficHeard(), new SurveyTooShort());

    /// <summary>All descriptors, in the order of their IDs.</summary>
    public static ImmutableArray<Descriptor> All { get; } = ImmutableArray.CreateRange(Rules.Select(rule => rule.Descriptor).OrderBy(rule => rule.Id, StringComparer.Ordinal));
}
