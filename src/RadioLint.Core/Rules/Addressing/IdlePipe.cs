using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4107: a node's own `pipes` open one that nobody sends to.</summary>
public sealed class IdlePipe() : Rule(new(
    "RL4107", Severity.Info, "Open pipe that nobody sends to",
    "each open pipe lets through its share of noise (derived; nRF24L01+ Product Specification 1.0, Table 28, EN_RXADDR)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var plan in network.Plan.Nodes)
        {
            // Somebody else's node may listen to nodes that this manifest does not know.
            if (plan.Node is not { IsExternal: false, OwnPipes: { } own } node)
                continue;
            var open = own.Where(pipe => !pipe.IsClosed).ToList();
            foreach (var pipe in open)
            {
                // Acknowledgements come to pipe 0, and pipes 2 to 5 have their upper bytes from pipe 1.
                // A link may name it with an address that another rule finds fault with.
                if (plan.Pipes.First(one => one.Number == pipe.Number) is not { Hops.IsEmpty: true } || plan.Receives.Any(hop => hop.Link.Pipe?.Value.Number == pipe.Number)
                    || (pipe.Number == 0 && plan.SendsAcknowledged) || (pipe.Number == 1 && open.Exists(other => other.Number > 1)))
                {
                    continue;
                }
                yield return At(
                    node, pipe.Place,
                    $"pipe {pipe.Number} of `{node.Label}` is open and 0 nodes send to it: all that it can receive is noise",
                    $"close it, or add the link that it is for",
                    // With its last pipe closed nothing that is sent to it could arrive.
                    open.Count == 1 && !plan.Receives.IsEmpty ? [] : [Offer(FormattableString.Invariant($"Close pipe {pipe.Number}"), [KeyEdit.Instead(pipe.Place, "closed")])]);
            }
        }
    }
}
