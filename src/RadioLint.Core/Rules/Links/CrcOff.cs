using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Rules.Links;

/// <summary>RL5204: no check sum is asked for.</summary>
public sealed class CrcOff() : Rule(new(
    "RL5204", Severity.Warning, "CRC off",
    "0 CRC bytes; the protocol engine forces 1 while any pipe acknowledges (nRF24L01+ Product Specification 1.0, 7.3.5 and Table 28, EN_CRC)", "0.1")
{
    Silences = ["RL4007", "RL5203"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        // One line may hold for several, and the first is told: the one with the least protection, those on no link last.
        foreach (var node in network.DistinctNodes.Where(node => node.Air.Crc is { Value: 0 }).OrderBy(node => Protection(network.Plan.Of(node))))
        {
            var (crc, plan) = (node.Air.Crc!, network.Plan.Of(node));
            var wanted = LengthAtPeers(plan) == 1 ? "1 byte" : "2 bytes";
            yield return At(
                node, crc.Place,
                plan.HasControlField
                    ? (FormattableString)$"no CRC is asked for; while a pipe acknowledges, the chip uses one of 1 byte all the same"
                    : $"packets have 0 CRC bytes: noise and damaged packets are taken for good ones",
                $"use `crc: {wanted}`",
                Offer($"Use {wanted}", crc.Place, wanted));
        }
    }

    private static int Protection(NodePlan plan) => plan.HasControlField ? 1 : plan.Sends.IsEmpty && plan.Receives.IsEmpty ? 2 : 0;

    // Both ends must have the same; null where no other end states one.
    private static int? LengthAtPeers(NodePlan plan) => plan.Sends.Select(hop => hop.Receiver).Concat(plan.Receives.Select(hop => hop.Sender))
        .Select(peer => peer.Air.Crc?.Value).FirstOrDefault(length => length > 0);
}
