using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Links;

/// <summary>RL5111: an answer is wanted sooner than the acknowledgement that can carry it.</summary>
public sealed class ReplyComesOneLater() : Rule(new(
    "RL5111", Severity.Info, "Reply wanted before the acknowledgement that carries it",
    "one period: a payload is loaded before the packet arrives whose acknowledgement carries it, so it answers the one before (nRF24L01+ Product Specification 1.0, 7.4.1)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var rider in network.DistinctHops)
        {
            if (rider.Link.Within is not { } within || rider.Carrier?.Link.Every is not { } every || within.Value >= every.Value)
                continue;
            yield return At(
                rider, within.Place,
                $"`{rider.Link.PayloadName?.Value}` is wanted at `{rider.Receiver.Label}` within {within.Value}, but rides back with what `{rider.Receiver.Label}` sends next, {every.Value} later",
                $"let `{rider.Receiver.Label}` send at least every {within.Value}, or again right after a packet that asks for an answer") with
            { Related = See(every.Place, $"it sends every {every.Value}") };
        }
    }
}
