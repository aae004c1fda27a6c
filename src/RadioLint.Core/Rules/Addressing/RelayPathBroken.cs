using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4209: the relays of a link make a circle, or no link leads from one to the next.</summary>
public sealed class RelayPathBroken() : Rule(new(
    "RL4209", Severity.Error, "Relay path that does not lead there",
    "each node of a path once, and a link for each step of it (own rule)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        var relayed = network.DistinctHops.Where(hop => !hop.Link.Via.IsEmpty).ToList();
        if (relayed.Count == 0)
            return [];
        var nodes = network.Nodes.GroupBy(node => node.Name, StringComparer.Ordinal).ToDictionary(alike => alike.Key, alike => alike.First(), StringComparer.Ordinal);
        var groups = new HashSet<string>(network.Nodes.Select(node => node.Entry), StringComparer.Ordinal);
        var steps = new HashSet<(Node, Node)>(network.Hops.Where(hop => hop.Link.Via.IsEmpty).Select(hop => (hop.Sender, hop.Receiver)));
        return relayed.Select(hop => Judge(hop, nodes, groups, steps)).OfType<Finding>();
    }

    private Finding? Judge(Hop hop, Dictionary<string, Node> nodes, HashSet<string> groups, HashSet<(Node, Node)> steps)
    {
        var seen = new HashSet<Node> { hop.Sender, hop.Receiver };
        var from = hop.Sender;
        foreach (var relay in hop.Link.Via)
        {
            // A name that nobody has is RL8011.
            if (!nodes.TryGetValue(relay.Value, out var node))
            {
                return groups.Contains(relay.Value)
                    ? At(hop, relay.Place, $"relay `{relay.Value}` is a group, and a packet goes through 1 node at a time", $"name one of its members, such as `{relay.Value}-1`")
                    : null;
            }
            if (!seen.Add(node))
                return At(hop, relay.Place, $"the path from `{hop.Sender.Label}` to `{hop.Receiver.Label}` comes to `{node.Name}` twice", $"name each node of the path once, sender and receiver not at all");
            if (!steps.Contains((from, node)))
                return NoStep(hop, from, node, relay);
            from = node;
        }
        return steps.Contains((from, hop.Receiver)) ? null : NoStep(hop, from, hop.Receiver, hop.Link.Via[hop.Link.Via.Length - 1]);
    }

    private Finding NoStep(Hop hop, Node from, Node to, Stated<string> relay) => At(
        hop, relay.Place,
        $"the path from `{hop.Sender.Label}` to `{hop.Receiver.Label}` ends at `{from.Label}`: 0 links lead from there to `{to.Label}`",
        $"add a link from `{from.Label}` to `{to.Label}`, which the relay's firmware is made from");
}
