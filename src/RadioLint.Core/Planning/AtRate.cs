using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Planning;

/// <summary>The network as it would be with its open rate settled: nodes, hops and plan anew, links as they are.</summary>
internal sealed class AtRate
{
    private readonly Dictionary<Node, Node> settled = [];

    private AtRate(ImmutableArray<Hop> hops, RadioPlan plan) => (Hops, Plan) = (hops, plan);

    public ImmutableArray<Hop> Hops { get; }

    public RadioPlan Plan { get; }

    /// <param name="rate">For every node whose rate may be chosen; null where there is none.</param>
    public static AtRate Of(Network network, Freedom freedom, DataRate? rate)
    {
        if (rate is null)
            return new(network.Hops, network.Plan);
        var nodes = new Dictionary<Node, Node>();
        foreach (var node in network.Nodes)
        {
            nodes[node] = freedom.Rate(node) ? node with { Air = node.Air with { Rate = node.Air.Rate! with { Value = new(rate) } } } : node;
        }
        var hops = ImmutableArray.CreateRange(network.Hops.Select(
            hop => new Hop { Link = hop.Link, Sender = nodes[hop.Sender], Receiver = nodes[hop.Receiver], SpeaksForGroup = hop.SpeaksForGroup }));
        var at = new AtRate(hops, Planner.Plan(network.Name?.Value ?? "", ImmutableArray.CreateRange(network.Nodes.Select(node => nodes[node])), hops));
        foreach (var pair in nodes)
            at.settled.Add(pair.Key, pair.Value);
        return at;
    }

    /// <summary>The node as it would be.</summary>
    public Node Of(Node node) => settled.TryGetValue(node, out var other) ? other : node;
}
