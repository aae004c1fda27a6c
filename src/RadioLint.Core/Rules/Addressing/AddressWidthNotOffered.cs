using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4001: an address width that SETUP_AW cannot state.</summary>
public sealed class AddressWidthNotOffered() : Rule(new(
    "RL4001", Severity.Error, "Address width that the chip does not offer",
    "3, 4 or 5 bytes; SETUP_AW code 00 is illegal (nRF24L01+ Product Specification 1.0, Table 28)", "0.1")
{
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Air.AddressWidth is not { Value: < Address.Narrowest or > Address.Widest } width)
                continue;
            var wanted = Written(network.Plan.Of(node)) ?? Address.Widest;
            yield return At(
                node, width.Place,
                $"addresses of {width.Value} bytes, but the radio takes {Address.Narrowest} to {Address.Widest}",
                wanted == Address.Widest
                    ? (FormattableString)$"use {Address.Widest} bytes, which let through the least noise"
                    : $"use {wanted} bytes, as many as the addresses of its links have",
                Offer($"Use {wanted} bytes", width.Place, FormattableString.Invariant($"{wanted}")));
        }
    }

    // What its links write already; null where they write none that a radio takes.
    private static int? Written(NodePlan plan) => plan.Sends.Concat(plan.Receives)
        .Select(hop => hop.Link.Address?.Value.Address?.Width).FirstOrDefault(width => width is >= Address.Narrowest and <= Address.Widest);
}
