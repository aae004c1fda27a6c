using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Survey;
using RadioLint.Text;

namespace RadioLint.Rules.Survey;

/// <summary>RL3304: another channel is much quieter than the planned one.</summary>
public sealed class PlannedChannelBusy() : SurveyRule(new(
    "RL3304", Severity.Warning, "Planned channel is not among the quiet ones",
    "own rule: busy more than twice as often as the best channel that may be used, and by more than the two 95 % intervals leave open", "0.1"))
{
    public override IEnumerable<Finding> Check(SurveyEvidence survey)
    {
        var ranking = survey.Ranking;
        // A channel that is out is the business of the rules on regions.
        if (ranking.Planned is not { } number || ranking.Channels[number] is not { Rank: { } rank } planned || survey.Network.Air.Channel is not { } stated)
            yield break;
        // The best that may be offered, else the best of all.
        var best = ranking.Channels[survey.Proposed.Length > 0 ? survey.Proposed[0] : ranking.Ranked.First().Channel];
        if (planned.Busy.Millionths <= 2 * best.Busy.Millionths || planned.Interval.Low.Millionths <= best.Interval.High.Millionths)
            yield break;
        var offers = survey.Proposed.Where(channel => channel != number).ToList();
        yield return At(
            stated.Place,
            $"channel {number} is busy {ChannelReasons.Shown(planned.Busy)} of the time, rank {rank} of {ranking.Ranked.Count()}; channel {best.Channel} is busy {ChannelReasons.Shown(best.Busy)}",
            offers.Count == 0
                ? (FormattableString)$"look at the ranking: of the quieter channels none keeps clear of all declared neighbours"
                : $"use channel {string.Join(", or ", offers)}, and flash all nodes of the network together; the rules of the place of use govern") with
        {
            Subject = survey.Network,
            Fixes = ImmutableArray.CreateRange(offers.Select(channel => new Fix(
                FixGrade.Offered, FormattableString.Invariant($"Use channel {channel}"), ImmutableArray.Create(Edit.Value(stated.Place, FormattableString.Invariant($"{channel}")))))),
        };
    }
}
