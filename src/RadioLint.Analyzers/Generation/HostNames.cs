using RadioLint.Facts;
using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Analyzers.Generation;

/// <summary>A payload with its bytes on air and its struct.</summary>
internal sealed record HostPayload(Payload Payload, int Length, string Name);

/// <summary>What the things of a network are called in C#, and the facts about each node that the names depend on.</summary>
internal sealed class HostNames
{
    // Members of the generated classes, which nothing of the manifest may be called.
    private static readonly string[] OfNetwork = ["Name", "Air", "Nodes", "Links", "Payloads"];

    private readonly Network network;
    private readonly Dictionary<Node, NodeFacts> facts = [];
    private readonly Dictionary<Node, string> nodes = [];
    private readonly NameTable links;

    public HostNames(Network network, List<Remark> clashes)
    {
        this.network = network;
        Class = new NameTable("Network", OfNetwork, clashes).Take(network.Name?.Value ?? "");
        var table = new NameTable("Node", NodeWriter.Members, clashes);
        foreach (var node in network.Nodes)
        {
            nodes.Add(node, table.Take(node.Name));
            if (!node.IsExternal && NodeFacts.Of(network, network.Plan.Of(node)) is { } known)
                facts.Add(node, known);
        }
        links = new("Link", LinkWriter.Members, clashes);
        Payloads = PayloadsOf(new("Payload", PayloadWriter.Members, clashes));
    }

    /// <summary>The network's class.</summary>
    public string Class { get; }

    /// <summary>In the manifest's order, then by length. The shortest has the plain name; a longer one is filled up with zeros to a fixed length.</summary>
    public IReadOnlyList<HostPayload> Payloads { get; }

    public string Of(Node node) => nodes[node];

    /// <summary>Null while the node's register image is not complete.</summary>
    public NodeFacts? FactsOf(Node node) => facts.TryGetValue(node, out var known) ? known : null;

    public string TakeLink(Hop hop) => links.Take($"{hop.Sender.Name} to {hop.Receiver.Name} {hop.Link.Payload!.Name}");

    private List<HostPayload> PayloadsOf(NameTable table)
    {
        var onAir = facts.Values.SelectMany(one => one.Payloads).Distinct().ToLookup(one => one.Payload, one => one.Length);
        var made = new List<HostPayload>();
        foreach (var payload in network.Payloads)
        {
            var plain = true;
            foreach (var length in onAir[payload].DefaultIfEmpty(payload.Size).OrderBy(length => length))
            {
                if (PayloadFaults.Of(payload, length).Any())
                    continue;
                made.Add(new(payload, length, table.Take(plain ? payload.Name : $"{payload.Name} in {CSharp.Number(length)}")));
                plain = false;
            }
        }
        return made;
    }
}
