using RadioLint.Findings;
using RadioLint.Survey;

namespace RadioLint.Rules.Survey;

/// <summary>RL3303: what ruins a link's packets may be too weak for the detector to hear.</summary>
public sealed class BelowTheDetector() : SurveyRule(new(
    "RL3303", Severity.Info, "Quiet only above the detector's threshold",
    "detector -64 dBm, 5 dB either way over temperature (nRF24L01+ Product Specification 1.0, 6.4 p25), against the planned level less the ratio that a receiver needs on its own channel (Tables 8 and 9 p17-18)",
    "0.1"))
{
    public override IEnumerable<Finding> Check(SurveyEvidence survey)
    {
        // The link that suffers from the weakest signal speaks for all; one of which nothing is known speaks only where no other does.
        var blind = survey.Ranking.Blind.Where(zone => zone.LeastHarmful is not { } least || least < zone.Threshold)
            .OrderBy(zone => zone.LeastHarmful?.Centi ?? int.MaxValue).FirstOrDefault();
        if (blind is null)
            yield break;
        var (hop, threshold) = (blind.Hop, blind.Threshold);
        yield return blind is { Planned: { } planned, LeastHarmful: { } harmful }
            ? At(
                ChannelPlace(survey),
                $"`{hop.Receiver.Label}` is to hear `{hop.Sender.Label}` at {planned}: a signal of {harmful} ruins that, and the detector hears nothing below {threshold}, {threshold - harmful} more",
                $"take a quiet channel for likely, not for proven: count lost packets on it for a day, or lift the link's level above {threshold + (planned - harmful)}")
                with { LinkName = hop.Link.Name }
            : At(
                ChannelPlace(survey),
                $"the detector hears nothing below {threshold}, and weaker signals may still ruin packets: what `{hop.Receiver.Label}` is to hear of `{hop.Sender.Label}` is not known",
                $"state the link's `distance` and both nodes' `antenna`, so that the planned level can be held against the threshold");
    }
}
