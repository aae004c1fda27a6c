using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6102: bytes that say nothing are sent, because fields stand in an order that needs padding.</summary>
public sealed class PaddingOnAir() : Rule(new(
    "RL6102", Severity.Warning, "Padding in the packet",
    "natural layout fills up to a multiple of each field's size, at most 8 bytes (as gcc for 32-bit cores does)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var payload in network.Payloads)
        {
            if (payload is not { Natural: { Value: true } natural, HasKnownSize: true } || payload.Size - payload.SizeAt(1) is not (> 0 and var padding))
                continue;
            var ordered = (payload with { Fields = ImmutableArray.CreateRange(payload.Fields.OrderByDescending(field => field.Kind is FieldKind.Text or FieldKind.Bytes ? 1 : field.ItemSize)) }).Size;
            yield return At(
                payload.NamePlace,
                $"{padding} of the {payload.Size} bytes of `{payload.Name}` are padding",
                ordered < payload.Size
                    ? (FormattableString)$"write the fields from the largest type to the smallest, which makes it {ordered} bytes, or use `layout: packed`"
                    : $"use `layout: packed`, or say with fields of your own what the padding holds",
                Offer("Use packed layout", natural.Place, "packed")) with
            { Subject = payload, Related = See(natural.Place, $"the layout is natural here") };
        }
    }
}
