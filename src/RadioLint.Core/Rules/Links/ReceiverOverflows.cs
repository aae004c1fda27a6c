using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Units;

namespace RadioLint.Rules.Links;

/// <summary>RL5401: more packets may arrive between two looks at the radio than it keeps.</summary>
public sealed class ReceiverOverflows() : Rule(new(
    "RL5401", Severity.Warning, "Receiver may overflow",
    "3 packets: a full receive FIFO discards what arrives and does not acknowledge it (nRF24L01+ Product Specification 1.0, 8.4); an info where all of them are repeated until it is emptied", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            var arriving = network.Plan.Of(node).Receives;
            if (node.Part is not { } part || arriving.IsEmpty || !arriving.All(Exchange.IsKnown))
                continue;
            var room = part.Fifo.Value;
            if (Gap(node, out var missing) is not { } gap)
            {
                // Fewer senders than it has room for are no danger on the beat.
                if (arriving.Length > room)
                    yield return Waits(node, missing);
                continue;
            }
            if (Packets(network, arriving, gap) is var count && count > room)
                yield return Judge(network, node, arriving, gap, count, room);
        }
    }

    private Finding Judge(Network network, Node node, ImmutableArray<Hop> arriving, Duration gap, long count, int room)
    {
        var loser = arriving.FirstOrDefault(hop => Span(network, hop) is null) ?? arriving.FirstOrDefault(hop => Span(network, hop) < gap);
        var loss = loser is null ? "the others are repeated meanwhile"
            : Span(network, loser) is { } span ? FormattableString.Invariant($"`{loser.Sender.Label}` gives up after {span}")
            : $"`{loser.Sender.Label}` sends without repeating";
        return At(
            node, node.Service!.Every?.Place ?? node.Service.Place,
            $"up to {count} packets may arrive at `{node.Label}` in the {gap} between two looks at the radio, which keeps {room}; {loss}",
            $"look more often or by interrupt, or give the senders different `offset`s") with
        { Severity = loser is null ? Severity.Info : Severity.Warning };
    }

    // From one emptying of the FIFO to the next. What else holds the SPI holds that up.
    private static Duration? Gap(Node node, out string missing)
    {
        missing = "service";
        if (node.Service is not { ByInterrupt: { Value: var byInterrupt } } service)
            return null;
        var bus = node.SharesSpi.Select(device => device.LongestTransfer?.Value ?? new(0)).DefaultIfEmpty().Max();
        missing = byInterrupt ? "service.takes" : "service.every";
        if ((byInterrupt ? service.Takes : service.Every) is not { } stated)
            return null;
        return stated.Value + bus + (byInterrupt ? new(0) : service.Takes?.Value ?? new(0));
    }

    // What the senders' periods bring, and no more than the air carries.
    private static long Packets(Network network, ImmutableArray<Hop> arriving, Duration gap)
    {
        var exchange = arriving.Min(hop => Exchange.Once(network.Plan, hop));
        return Math.Min(arriving.Sum(hop => InGap(hop.Link, gap)), Times(gap, exchange));
    }

    private static long InGap(Link link, Duration gap)
    {
        var parts = link is { Message: { } message, Payload: { } payload } ? MessageParts.Count(message.Value, payload) : 1;
        var least = link.Every is { } every ? every.Value - Shift(link, every.Value) : link.Spacing?.Value;
        return parts * (least is { Nanoseconds: > 0 } period ? Times(gap, period) : 1);
    }

    private static Duration Shift(Link link, Duration every) =>
        link.Jitter?.Value is not { } jitter ? new(0) : jitter.Time ?? new(every.Nanoseconds / 1_000_000 * (jitter.Share?.Millionths ?? 0));

    private static long Times(Duration time, Duration each) => (time.Nanoseconds + each.Nanoseconds - 1) / each.Nanoseconds;

    // How long the radio repeats by itself; null where it does not.
    private static Duration? Span(Network network, Hop hop) =>
        hop.IsAcknowledged && network.Plan.Of(hop.Sender).Retry is { Limit: > 0 } retry ? Exchange.Span(network.Plan, hop, retry) : null;
}
