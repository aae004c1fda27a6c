using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Rules.Links;

/// <summary>RL5203: a check sum of one byte, perhaps of more bits than it can guard.</summary>
public sealed class OneByteCrc() : Rule(new(
    "RL5203", Severity.Warning, "CRC of one byte",
    "payloads of 8, 9, 10 bytes with addresses of 5, 4, 3 bytes keep Hamming distance 4 (Koopman and Chakravarty, Cyclic Redundancy Code Polynomial Selection, DSN 2004, "
    + "over the bits that nRF24L01+ Product Specification 1.0, 7.3.5, names); an info up to there", "0.1")
{
    Silences = ["RL4007"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var (node, crc, wanted) in CheckLengths.Stated(network, 1))
        {
            var plan = network.Plan.Of(node);
            var (longest, name) = Longest(plan);
            var guarded = node.Air.AddressWidth?.Value is >= Address.Narrowest and <= Address.Widest and var width ? CheckSum.LongestGuarded(width, plan.HasControlField) : int.MaxValue;
            yield return At(
                node, crc.Place,
                longest > guarded
                    ? (FormattableString)$"a CRC of 1 byte finds every 3 wrong bits up to {guarded} bytes of payload with addresses of {node.Air.AddressWidth!.Value} bytes; `{name}` has {longest} on air"
                    : $"a CRC of 1 byte takes 1 in 256 badly damaged packets for good, one of 2 bytes 1 in 65536",
                $"use `crc: 2 bytes` at both ends",
                wanted == "2 bytes" ? [Offer("Use 2 bytes", crc.Place, wanted)] : []) with
            {
                Severity = longest > guarded ? Severity.Warning : Severity.Info,
                // Noise passes a short address often whatever the check sum: there RL4007 has its own say.
                Subject = node.Air.AddressWidth is { Value: < Address.Widest } ? crc.Place : node,
            };
        }
    }

    private static (int Bytes, string Name) Longest(NodePlan plan) => plan.Sends.Concat(plan.Receives).Select(hop => (RetryPlanner.SentBytes(hop), hop.Link.PayloadName?.Value ?? ""))
        .Concat(plan.Returns.Concat(plan.Sends.SelectMany(hop => hop.Riders)).Select(hop => (hop.Link.Payload?.Size ?? 0, hop.Link.PayloadName?.Value ?? "")))
        .OrderByDescending(one => one.Item1).FirstOrDefault();
}
