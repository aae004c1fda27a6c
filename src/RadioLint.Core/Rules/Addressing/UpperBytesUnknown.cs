using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4104: pipes 2 to 5 are open, but pipe 1, whose bytes they take, has no address.</summary>
public sealed class UpperBytesUnknown() : Rule(new(
    "RL4104", Severity.Error, "Pipe 2 to 5 open while pipe 1 has no address",
    "pipes 2 to 5 take all but the last byte from pipe 1 (nRF24L01+ Product Specification 1.0, 7.6 and Table 28)", "0.1")
{
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.OwnPipes is not { } own
                || own.FirstOrDefault(pipe => pipe is { Number: > 1, IsClosed: false }) is not { } upper
                || own.Any(pipe => pipe is { Number: 1, IsClosed: false, Address: not null }))
            {
                continue;
            }
            var lead = own.FirstOrDefault(pipe => pipe.Number == 1);
            yield return At(
                node, upper.Key.Place,
                $"pipe {upper.Number} of `{node.Label}` is open, but pipe 1, which gives it all but the last byte, {(lead is null ? "is not among its pipes" : lead.IsClosed ? "is closed" : "has no address")}",
                $"state the address of pipe 1",
                AddressForPipe1(network, node, upper, lead) is { } address ? [Offer($"Give pipe 1 the address {address}", [Insertion(node, own[0], lead, address)])] : []) with
            {
                // Written in full, the bytes are known and emitted headers give them to pipe 1; firmware of somebody's own may not.
                Severity = !node.IsExternal && IsKnown(own, network.Plan.Of(node)) ? Severity.Warning : Severity.Error,
                Related = lead is null ? ImmutableArray<RelatedPlace>.Empty : See(lead.Place, $"pipe 1 is here"),
            };
        }
    }

    // All of them written in full; those that somebody sends to with the same bytes before the last as the first, which pipe 1 gets.
    private static bool IsKnown(ImmutableArray<OwnPipe> own, NodePlan plan)
    {
        var upper = own.Where(pipe => pipe is { Number: > 1, IsClosed: false }).OrderBy(pipe => pipe.Number).Select(pipe => (pipe.Number, pipe.Address?.Value.Address)).ToList();
        return upper.TrueForAll(pipe => pipe.Address is { Width: > 1 } address
            && (plan.Receives.All(hop => hop.Pipe != pipe.Number) || address.Prefix.AsSpan().SequenceEqual(upper[0].Address!.Prefix.AsSpan())));
    }

    // The bytes that the other pipe is written with, if it is written in full, or that a link to it writes; else derived ones.
    private static Address? AddressForPipe1(Network network, Node node, OwnPipe upper, OwnPipe? lead)
    {
        if (lead is { IsClosed: false } || node.Air.AddressWidth is not { Value: >= Address.Narrowest and <= Address.Widest and var width })
            return null;
        var known = upper.Address?.Value.Address is { } own && own.Width != width
            ? network.Links.Where(link => link.To.Contains(node)).Select(link => link.Address?.Value.Address).FirstOrDefault(address => address?.Width == width && address.LowByte == own.LowByte)
            : upper.Address?.Value.Address;
        return known is { } written
            ? written.WithLowByte(WrittenAddresses.NextFree(network, node, written.LowByte))
            : WrittenAddresses.Fresh(network, node, "pipe 1", width);
    }

    private static Edit Insertion(Node node, OwnPipe first, OwnPipe? lead, Address address) => lead is null
        ? KeyEdit.Before(node.PipesPlace, first.Key.Place, "1", $"{address}")
        : Edit.Value(lead.Place, $"{address}");
}
