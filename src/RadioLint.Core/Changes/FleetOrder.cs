using System.Collections.Immutable;
using RadioLint.Facts;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Changes;

/// <summary>A node that cannot be reached when it is to change, or that stays behind at the end.</summary>
/// <param name="Node">As the old plan has it.</param>
/// <param name="Step">Which step of the order, from 1; null when the node is in no step.</param>
/// <param name="Peer">A node that it had a link with, which no longer hears it; null when none is left in the plan.</param>
/// <param name="Differences">What the two do not share then.</param>
public sealed record Stranded(Node Node, int? Step, Node? Peer, ImmutableArray<string> Differences);

/// <summary>
/// A network on its way from one plan to another, node by node. Values in, values out: two networks as their manifests state them, and an order of names.
/// Common practice, no published source: what both ends must share is changed at the leaves first and at the hub last, so that each node can still be told.
/// </summary>
public sealed class FleetOrder
{
    private readonly Dictionary<string, NodePlan> before;
    private readonly Dictionary<string, NodePlan> after;
    private readonly Dictionary<string, List<(string Peer, (string, string, string) Link)>> peers = new(StringComparer.Ordinal);
    private readonly Dictionary<(string, string, string), Hop> hopsBefore;
    private readonly Dictionary<(string, string, string), Hop> hopsAfter;

    public FleetOrder(Network before, Network after)
    {
        this.before = PlansOf(before);
        this.after = PlansOf(after);
        (hopsBefore, hopsAfter) = (HopsOf(before), HopsOf(after));
        foreach (var link in hopsBefore.Keys.Union(hopsAfter.Keys))
        {
            PeersOf(link.Item1).Add((link.Item2, link));
            PeersOf(link.Item2).Add((link.Item1, link));
        }
        Changed = Ordered(after.Nodes.Where(node => !node.IsExternal && this.before.TryGetValue(node.Name, out var old) && Digest(before, old) != Digest(after, this.after[node.Name])));
        Hub = HubOf(after);
    }

    /// <summary>Nodes of both plans whose radio or program must hold something else, in the order of their names.</summary>
    public ImmutableArray<Node> Changed { get; }

    /// <summary>Where changes come from: the node with a host, else the one with the most peers. Null in a network without nodes of its own.</summary>
    public Node? Hub { get; }

    /// <summary>The changed nodes in an order that keeps each reachable until it changes: the farthest from the hub first, sleepers before others, the hub last. Without those that no link joins to the hub.</summary>
    public ImmutableArray<Node> Safe()
    {
        var depths = Depths();
        return ImmutableArray.CreateRange(Changed.Where(node => depths.ContainsKey(node.Name))
            .OrderByDescending(node => depths[node.Name])
            .ThenBy(node => node.Sleep is null)
            .ThenBy(node => node.Name, NaturalOrder.Instance));
    }

    /// <summary>The first node that the hub cannot reach when it is to change over the air; null when all can be.</summary>
    public Stranded? FirstOutOfReach(IReadOnlyList<Node> order)
    {
        var done = new HashSet<string>(StringComparer.Ordinal);
        for (var step = 0; step < order.Count; step++)
        {
            var name = order[step].Name;
            if (before.ContainsKey(name) && !IsJoined(name, done))
                return Said(name, step + 1, done);
            done.Add(name);
        }
        return null;
    }

    /// <summary>
    /// Changed nodes that are in no step and are cut off once all others have changed, in the order of their names; those alone that both plans join to the hub.
    /// </summary>
    public IEnumerable<Stranded> LeftBehind(IReadOnlyList<Node> order)
    {
        var done = new HashSet<string>(order.Select(node => node.Name), StringComparer.Ordinal);
        var (none, all) = (new HashSet<string>(StringComparer.Ordinal), new HashSet<string>(after.Keys, StringComparer.Ordinal));
        foreach (var node in Changed.Where(node => !done.Contains(node.Name)))
        {
            if (!IsJoined(node.Name, done) && IsJoined(node.Name, none) && IsJoined(node.Name, all))
                yield return Said(node.Name, null, done);
        }
    }

    // From the node towards the hub: where it is a leaf, as most are, one link decides.
    private bool IsJoined(string name, HashSet<string> done)
    {
        if (Hub is null || name == Hub.Name)
            return true;
        var seen = new HashSet<string>(StringComparer.Ordinal) { name };
        var ahead = new Queue<string>(seen);
        while (ahead.Count > 0)
        {
            foreach (var (peer, link) in PeersOf(ahead.Dequeue()))
            {
                if (seen.Contains(peer) || Differences(link, done) is not { Count: 0 })
                    continue;
                if (peer == Hub.Name)
                    return true;
                seen.Add(peer);
                ahead.Enqueue(peer);
            }
        }
        return false;
    }

    private Stranded Said(string name, int? step, HashSet<string> done)
    {
        foreach (var (peer, link) in PeersOf(name))
        {
            if (Differences(link, done) is { Count: > 0 } differences)
                return new(before[name].Node, step, (done.Contains(peer) ? after : before).TryGetValue(peer, out var plan) ? plan.Node : null, ImmutableArray.CreateRange(differences));
        }
        return new(before[name].Node, step, null, ImmutableArray<string>.Empty);
    }

    // Null where one of the two has no such link in the plan that it holds.
    private List<string>? Differences((string Sender, string Receiver, string Payload) link, HashSet<string> done) =>
        End(link.Sender, link, done) is { } sender && End(link.Receiver, link, done) is { } receiver ? [.. LinkEnds.Differences(sender, receiver)] : null;

    // What is new in the plan holds the new one from the start, what is gone from it the old one to the end.
    private LinkEnd? End(string name, (string, string, string) link, HashSet<string> done)
    {
        var isNew = !before.ContainsKey(name) || (done.Contains(name) && after.ContainsKey(name));
        return (isNew ? hopsAfter : hopsBefore).TryGetValue(link, out var hop) ? new((isNew ? after : before)[name], hop) : null;
    }

    private Dictionary<string, int> Depths()
    {
        var depths = new Dictionary<string, int>(StringComparer.Ordinal);
        if (Hub is null)
            return depths;
        depths.Add(Hub.Name, 0);
        var ahead = new Queue<string>(depths.Keys);
        while (ahead.Count > 0)
        {
            var name = ahead.Dequeue();
            foreach (var (peer, _) in PeersOf(name))
            {
                if (depths.ContainsKey(peer))
                    continue;
                depths.Add(peer, depths[name] + 1);
                ahead.Enqueue(peer);
            }
        }
        return depths;
    }

    private Node? HubOf(Network network) => network.Nodes.Where(node => !node.IsExternal)
        .OrderByDescending(node => node.Host is not null)
        .ThenByDescending(node => PeersOf(node.Name).Select(peer => peer.Peer).Distinct(StringComparer.Ordinal).Count())
        .ThenBy(node => node.Name, NaturalOrder.Instance).FirstOrDefault();

    private List<(string Peer, (string, string, string) Link)> PeersOf(string name)
    {
        if (!peers.TryGetValue(name, out var list))
            peers.Add(name, list = []);
        return list;
    }

    // While a value is still open there is no image, and settings that differ cannot be told.
    private static string? Digest(Network network, NodePlan plan) => NodeFacts.Of(network, plan) is { } facts ? Fingerprint.OfNode(facts).ToDigest() : null;

    private static ImmutableArray<Node> Ordered(IEnumerable<Node> nodes) => ImmutableArray.CreateRange(nodes.OrderBy(node => node.Name, NaturalOrder.Instance));

    private static Dictionary<string, NodePlan> PlansOf(Network network)
    {
        var plans = new Dictionary<string, NodePlan>(StringComparer.Ordinal);
        foreach (var plan in network.Plan.Nodes)
            plans[plan.Node.Name] = plan;
        return plans;
    }

    // A payload that rides back goes with the packet that it answers.
    private static Dictionary<(string, string, string), Hop> HopsOf(Network network)
    {
        var hops = new Dictionary<(string, string, string), Hop>();
        foreach (var hop in network.Hops.Where(hop => !hop.Link.RidesInAcknowledgement))
            hops[(hop.Sender.Name, hop.Receiver.Name, hop.Link.PayloadName?.Value ?? "")] = hop;
        return hops;
    }
}
