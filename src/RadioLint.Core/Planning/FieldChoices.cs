using System.Collections.Immutable;
using RadioLint.Model;

namespace RadioLint.Planning;

/// <summary>Orders of fields that are open: as <see cref="AlignedOrder"/> has them.</summary>
internal static class FieldChoices
{
    public static IEnumerable<Choice> Of(Network network) =>
        from payload in network.Payloads
        where payload is { Order.Value.IsOpen: true, HasKnownSize: true, Fields.IsEmpty: false }
        select new Choice(payload, "order", FieldOrder.InManifest(payload), Reason(payload));

    private static string Reason(Payload payload)
    {
        var written = payload with { Fields = ImmutableArray.CreateRange(payload.Fields.OrderBy(field => field.Place.Start)) };
        var (off, before) = (AlignedOrder.Unaligned(payload), AlignedOrder.Unaligned(written));
        var standing = off == 0 ? "all fields stand at multiples of their size" : FormattableString.Invariant($"{off} of the {payload.Fields.Length} fields stand off a multiple of their size");
        return payload.Size < written.Size ? FormattableString.Invariant($"{payload.Size} bytes, {written.Size} as written; {standing}")
            : off < before ? FormattableString.Invariant($"{payload.Size} bytes; {standing}; as written {before} would not")
            : FormattableString.Invariant($"{payload.Size} bytes; {standing}");
    }
}
