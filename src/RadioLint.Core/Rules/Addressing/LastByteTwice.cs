using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4102: two pipes of one radio end in the same byte.</summary>
public sealed class LastByteTwice() : Rule(new(
    "RL4102", Severity.Error, "Two pipes that end in the same byte",
    "the last byte must differ among all six pipes (nRF24L01+ Product Specification 1.0, 7.6 p39)", "0.1")
{
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var plan in network.Plan.Nodes)
        {
            if (plan.Pipes.Length < 2)
                continue;
            foreach (var alike in Pipes(plan).GroupBy(pipe => pipe.Address.LowByte))
            {
                var first = alike.First();
                foreach (var pipe in alike.Skip(1))
                    yield return Judge(network, plan.Node, first, pipe);
            }
        }
    }

    private Finding Judge(Network network, Node node, Held first, Held pipe)
    {
        var free = WrittenAddresses.NextFree(network, node, pipe.Address.LowByte);
        var right = $"{pipe.Address.WithLowByte(free)}";
        // A sender that writes the old address would be left behind.
        var isWrittenElsewhere = node.OwnPipes is not null && network.Plan.Of(node).Receives.Any(hop => hop.Link.Address is not null && hop.Pipe == pipe.Number);
        return At(
            node, pipe.Place,
            $"pipes {first.Number} and {pipe.Number} of `{node.Label}` both end in 0x{pipe.Address.LowByte:X2}",
            $"give pipe {pipe.Number} another last byte, such as 0x{free:X2}",
            isWrittenElsewhere || !pipe.IsWritten ? [] : [Offer($"Use {right}", pipe.Place, right)]) with
        {
            Subject = pipe.Place,
            Related = See(first.Place, $"pipe {first.Number} is here"),
        };
    }

    // What a radio holds: of a node's own pipes 2 to 5 only the last byte, whatever else is written (RL4101).
    private static IEnumerable<Held> Pipes(NodePlan plan)
    {
        if (plan.Node.OwnPipes is { } own)
        {
            return own.Where(pipe => pipe is { IsClosed: false, Address.Value.Address.Width: > 0 })
                .Select(pipe => new Held(pipe.Number, pipe.Address!.Value.Address, pipe.Address.Place, true));
        }
        return plan.Pipes.Where(pipe => pipe.Address is not null).Select(pipe => pipe.Hops.Select(hop => hop.Link.Address).FirstOrDefault(address => address is not null) is { } written
            ? new Held(pipe.Number, pipe.Address!, written.Place, true)
            : new Held(pipe.Number, pipe.Address!, pipe.Place, false));
    }

    private sealed record Held(int Number, Address Address, Place Place, bool IsWritten);
}
