using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Links;

/// <summary>RL5204: no check sum is asked for.</summary>
public sealed class CrcOff() : Rule(new(
    "RL5204", Severity.Warning, "CRC off",
    "0 CRC bytes; RL5201 where the protocol engine forces 1 (nRF24L01+ Product Specification 1.0, 7.3.5 and Table 28, EN_CRC)", "0.1")
{
    Silences = ["RL4007", "RL5203"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var (node, crc, wanted, isForced) in CheckLengths.Stated(network, 0))
        {
            if (isForced)
                continue;
            yield return At(
                node, crc.Place,
                $"packets have 0 CRC bytes: noise and damaged packets are taken for good ones",
                $"use `crc: {wanted ?? "2 bytes"}`",
                wanted is null ? [] : [Offer($"Use {wanted}", crc.Place, wanted)]);
        }
    }
}
