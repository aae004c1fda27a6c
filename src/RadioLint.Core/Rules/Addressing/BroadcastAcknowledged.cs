using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4206: one packet for several receivers, all of which would answer at once.</summary>
public sealed class BroadcastAcknowledged() : Rule(new(
    "RL4206", Severity.Error, "Broadcast with acknowledgement",
    "an acknowledgement follows 130 us after the packet, from every receiver alike; NO_ACK packets exist for this (nRF24L01+ Product Specification 1.0, 7.3.3.3)", "0.1")
{
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        var seen = new HashSet<Link>();
        foreach (var hop in network.Hops)
        {
            if (!IsOne(hop) || !seen.Add(hop.Link))
                continue;
            var link = hop.Link;
            yield return At(
                hop, link.Broadcast!.Place,
                $"{link.To.Length} receivers of one broadcast from `{hop.Sender.Label}` would all acknowledge it at once",
                $"state `acknowledge: false` on the link: its packets then say that they want no answer",
                Offer("State `acknowledge: false`", [
                    link.Acknowledge is { } stated ? Edit.Value(stated.Place, "false") : KeyEdit.After(link.Place, link.Broadcast.Place, "acknowledge", "false")])) with
            { Related = (link.Acknowledge ?? hop.Sender.Air.Acknowledge) is { IsDefault: false } on ? See(on.Place, $"acknowledgement is asked for here") : ImmutableArray<RelatedPlace>.Empty };
        }
    }

    /// <summary>True for a hop of such a link; RL4202 leaves acknowledgement to this rule then.</summary>
    internal static bool IsOne(Hop hop) => hop.Link is { IsBroadcast: true, RidesInAcknowledgement: false, To.Length: > 1 } && hop.IsAcknowledged;
}
