using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Links;

/// <summary>RL5201: no check sum is asked for, and the chip uses one all the same.</summary>
public sealed class CrcForcedOn() : Rule(new(
    "RL5201", Severity.Warning, "CRC off while acknowledging",
    "EN_CRC is forced to 1, a CRC of 1 byte, while any bit of EN_AA is 1 (nRF24L01+ Product Specification 1.0, Table 28)", "0.1")
{
    Silences = ["RL4007", "RL5203"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var (node, crc, wanted, _) in CheckLengths.Stated(network, 0))
        {
            if (!network.Plan.Of(node).HasControlField)
                continue;
            yield return At(
                node, crc.Place,
                $"no CRC is asked for; while a node acknowledges or asks for it, its chip uses one of 1 byte all the same",
                $"use `crc: 2 bytes`, or `1 byte` to state what is on the air now",
                wanted is null ? [] : [Offer($"Use {wanted}", crc.Place, wanted)]);
        }
    }
}
