using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6105: a payload that does not fit a packet, or not the fixed length that its sender uses.</summary>
public sealed class PayloadTooLong() : Rule(new(
    "RL6105", Severity.Error, "Payload longer than the packet",
    "32 bytes, or the fixed length (nRF24L01+ Product Specification 1.0, 7.3.4)", "0.1")
{
    Silences = ["RL5302", "RL5307"],
    StopsDelivery = true,
})
{
    private const int MostShown = 6;

    public override IEnumerable<Finding> Check(Network network)
    {
        // The same everywhere but for parts that hold less.
        var parts = network.DistinctNodes.Select(node => node.Part).Where(part => part is not null).Select(part => part!.PayloadRange.Value.High).ToList();
        if (parts.Count == 0)
            yield break;
        var longest = parts.Min();
        foreach (var payload in network.Payloads.Where(payload => payload.Size > longest))
        {
            var bytes = payload.HasKnownSize ? $"{payload.Size} bytes" : $"at least {payload.Size} bytes";
            yield return At(
                payload.NamePlace,
                $"payload `{payload.Name}` is {bytes}, {payload.Size - longest} more than a packet holds",
                $"shorten it to {longest} bytes or split it; now {Shares(payload)}") with
            {
                Subject = payload,
                // What nobody sends yet loses nothing yet.
                Severity = network.Hops.Any(hop => hop.Link.Payload == payload) ? Severity.Error : Severity.Warning,
            };
        }
        var seen = new HashSet<(Payload, int)>();
        foreach (var hop in network.DistinctHops)
        {
            if (hop.Link is not { RidesInAcknowledgement: false, Payload: { } payload } || payload.Size > longest
                || hop.Sender.Air.PayloadLength is not { Value: { Kind: LengthKind.Fixed, Bytes: > 0 and var length }, Place: var place }
                || payload.Size <= length || !seen.Add((payload, length)))
            {
                continue;
            }
            yield return At(
                hop, payload.NamePlace,
                $"payload `{payload.Name}` is {payload.Size} bytes, {payload.Size - length} more than the fixed length of {length} bytes",
                $"use `payload-length: exact` or `dynamic`, or shorten the payload; now {Shares(payload)}") with
            { Subject = payload, Related = See(place, $"the length is fixed here") };
        }
    }

    // Largest first: that is where something can be saved.
    private static string Shares(Payload payload)
    {
        var fields = payload.Fields.OrderByDescending(field => field.Size).ToList();
        var shown = fields.Take(MostShown).Select(field => $"`{field.Name}` {(field.Size == 0 ? "?" : FormattableString.Invariant($"{field.Size}"))}");
        var rest = fields.Skip(MostShown).ToList();
        return string.Join(", ", shown) + (rest.Count == 0 ? "" : FormattableString.Invariant($", {rest.Count} more {rest.Sum(field => field.Size)}"));
    }
}
