using System.Numerics;
using RadioLint.Facts;
using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6206: a sequence number that goes all the way round within the silence that it must bridge.</summary>
public sealed class CounterTurnsInGap() : Rule(new(
    "RL6206", Severity.Warning, "Sequence number turns round within the longest gap",
    "fewer packets in `longest-gap` than the field has values (arithmetic)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var payload in network.Payloads)
        {
            if (payload.Fields.FirstOrDefault(field => field is { Role: "sequence", Kind: FieldKind.Integer }) is not { } field)
                continue;
            var (low, high) = FieldLimits.OfRange(field) ?? FieldLimits.OfType(field);
            var worst = network.HopsOf(payload).Select(hop => (Hop: hop, Packets: InGap(hop.Link))).OrderByDescending(one => one.Packets).FirstOrDefault();
            if (worst.Hop is null || worst.Packets < high - low + 1)
                continue;
            var (wider, size) = worst.Packets <= ushort.MaxValue ? ("uint16", 2) : worst.Packets <= uint.MaxValue ? ("uint32", 4) : ("uint64", 8);
            yield return At(
                worst.Hop, field.TypePlace,
                $"`{field.Name}` of `{payload.Name}` starts over after {high - low + 1} packets, and {worst.Packets} are sent in the longest gap from `{worst.Hop.Sender.Label}` to `{worst.Hop.Receiver.Label}`",
                $"use `{wider}`, so that what was lost can be counted",
                size > field.ItemSize && field is { Range: null, Count: 1 } && FurtherField.HasRoom(network, payload, size - field.ItemSize) ? [Offer($"Use {wider}", field.TypePlace, wider)] : []) with
            { Related = See(worst.Hop.Link.LongestGap!.Place, $"the gap is here") };
        }
    }

    // Packets that may all be lost: by the period, else by the average of events.
    private static BigInteger InGap(Link link) =>
        link.LongestGap is not { } gap ? 0
        : link.Every is { Value.Nanoseconds: > 0 } every ? gap.Value.Nanoseconds / every.Value.Nanoseconds
        : link.Events is { Value: { Per.Nanoseconds: > 0 } events } ? new BigInteger(gap.Value.Nanoseconds) * events.Count / events.Per.Nanoseconds
        : 0;
}
