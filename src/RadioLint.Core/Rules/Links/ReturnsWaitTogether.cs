using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Links;

/// <summary>RL5110: a node has more payloads for acknowledgements than its radio can hold at a time.</summary>
public sealed class ReturnsWaitTogether() : Rule(new(
    "RL5110", Severity.Warning, "More payloads for acknowledgements than the radio holds",
    "3 at a time, over all pipes (nRF24L01+ Product Specification 1.0, 7.4.1 and 8.4)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var plan in network.Plan.Nodes.Where(plan => !plan.Returns.IsEmpty).OrderBy(plan => plan.Node.Name, NaturalOrder.Instance))
        {
            if (plan.Node.Part is not { } part || plan.Returns.Length <= part.Fifo.Value)
                continue;
            var links = plan.Returns.Select(hop => hop.Link).Distinct().ToList();
            yield return At(
                plan.Node, links[0].RidesBack!.Place,
                $"`{plan.Node.Label}` has {plan.Returns.Length} payloads to return in acknowledgements, and {part.Name} holds {part.Fifo.Value}: those for nodes that are silent keep the others out",
                $"load one at a time, for the node that is due next, and flush it (FLUSH_TX) if that node does not come") with
            {
                Related = ImmutableArray.CreateRange(links.Skip(1).Select(link => new RelatedPlace(link.RidesBack!.Place, "others are here"))),
            };
        }
    }
}
