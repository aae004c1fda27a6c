using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1208: another device keeps the bus while more packets arrive than the radio can hold.</summary>
public sealed class TransferHoldsUpRadio() : Rule(new(
    "RL1208", Severity.Warning, "Transfer on the bus that outlasts the radio's packet store",
    "three packets wait in the radio (nRF24L01+ Product Specification 1.0, section 8.4)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        var busy = network.DistinctNodes.Where(node => node.SharesSpi.Any(other => other.LongestTransfer is not null)).ToList();
        if (busy.Count == 0)
            yield break;
        var arriving = network.Hops.Where(hop => !hop.Link.RidesInAcknowledgement).ToLookup(hop => hop.Receiver);
        foreach (var node in busy)
        {
            if (node.Part is not { } part)
                continue;
            foreach (var other in node.SharesSpi)
            {
                if (other.LongestTransfer is not { } transfer)
                    continue;
                var packets = arriving[node].Sum(hop => Spacing(hop.Link) is { } spacing ? (decimal)transfer.Value.Nanoseconds / spacing : 0m);
                if (packets <= part.Fifo.Value)
                    continue;
                yield return At(
                    node, transfer.Place,
                    $"{other.Part?.Value ?? "a device"} keeps the bus of `{node.Label}` for {transfer.Value}; up to {decimal.Ceiling(packets):0} packets arrive meanwhile, and the radio holds {part.Fifo.Value}",
                    $"split the transfer, or let the senders repeat for longer than it lasts");
            }
        }
    }

    // In nanoseconds: the shortest gap between two packets of one sender that is stated.
    private static long? Spacing(Link link)
    {
        var spacing = Math.Min(link.Spacing?.Value.Nanoseconds ?? long.MaxValue, link.Every?.Value.Nanoseconds ?? long.MaxValue);
        return spacing is > 0 and < long.MaxValue ? spacing : null;
    }
}
