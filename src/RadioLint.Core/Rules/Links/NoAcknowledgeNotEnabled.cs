using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Links;

/// <summary>RL5108: packets that say themselves that they want no acknowledgement, from firmware that has not switched them on.</summary>
public sealed class NoAcknowledgeNotEnabled() : Rule(new(
    "RL5108", Severity.Error, "Packets without acknowledgement, but the feature bit is off",
    "W_TX_PAYLOAD_NOACK needs EN_DYN_ACK in FEATURE (nRF24L01+ Product Specification 1.0, 7.3.3.3 and Table 28)", "0.1")
{
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var hop in network.DistinctHops)
        {
            if (hop.Link.RidesInAcknowledgement || !hop.IsSentWithoutAcknowledge || hop.Sender.Air.NoAcknowledge is not { Value: false } off)
                continue;
            yield return At(
                hop.Sender, off.Place,
                $"`{hop.Sender.Label}` sends to `{hop.Receiver.Label}` without acknowledgement, but its firmware leaves EN_DYN_ACK at 0",
                $"set EN_DYN_ACK in that firmware and state `no-acknowledge: true`, or let the link be acknowledged",
                Offer("Write `true`", off.Place, "true")) with
            {
                LinkName = hop.Link.Name,
                Related = See(hop.Link.Acknowledge!.Place, $"a link without acknowledgement is here"),
            };
        }
    }
}
