using RadioLint.Manifest.Keys;
using RadioLint.Model;

namespace RadioLint.Manifest;

/// <summary>The SPI pins that nodes have by their boards' custom, for the map of the manifest that would state them.</summary>
internal sealed class CustomaryPins
{
    // The map that holds, or would hold, `pins`: that of a member, of an entry, or `all-nodes`.
    private readonly Dictionary<LocatedMap, List<Node>> owners = [];
    private readonly Dictionary<LocatedMap, LocatedMap> ownersOfPins = [];

    public CustomaryPins(LocatedMap root, Network? network)
    {
        if (network is null || root.Find(RootKeys.Nodes.Name)?.Value is not LocatedMap entries)
            return;
        var allNodes = root.Find(RootKeys.AllNodes.Name)?.Value as LocatedMap;
        foreach (var node in network.Nodes)
        {
            if (entries.Find(node.Entry)?.Value is not LocatedMap entry)
                continue;
            var owner = Array.Find([Member(entry, node), entry, allNodes], map => map?.Find(Pins) is not null) ?? entry;
            if (!owners.TryGetValue(owner, out var users))
                owners.Add(owner, users = []);
            users.Add(node);
            if (owner.Find(Pins)?.Value is LocatedMap pins)
                ownersOfPins[pins] = owner;
        }
    }

    private static string Pins => NodeKeys.OfNode.Pins.Name;

    /// <summary>The copy with what is customary: pins in a `pins` map, or a `pins` map in an entry that has none.</summary>
    public LocatedMap Complete(LocatedMap map, LocatedMap copy)
    {
        if (ownersOfPins.TryGetValue(map, out var owner))
            Add(copy, Common(owners[owner]));
        else if (owners.TryGetValue(map, out var users) && map.Find(Pins) is null && Common(users) is { Count: > 0 } lines)
            copy.Add(new(Word(map, Pins), Add(new LocatedMap(map.Place), lines)));
        return copy;
    }

    private static LocatedMap? Member(LocatedMap entry, Node node)
    {
        if (node.Name.Length <= node.Entry.Length + 1 || entry.Find(NodeKeys.OfNode.Each.Name)?.Value is not LocatedMap members)
            return null;
        return members.Find(node.Name.Substring(node.Entry.Length + 1))?.Value as LocatedMap;
    }

    // One map states one pin for all of its nodes: a line on which they differ cannot be written there.
    private static List<(string Signal, string Pin)> Common(List<Node> users)
    {
        var common = Lines(users[0]);
        foreach (var node in users.Skip(1))
            common = [.. common.Intersect(Lines(node))];
        return common;
    }

    private static List<(string Signal, string Pin)> Lines(Node node) =>
    [
        .. new[] { node.Wiring.Sck, node.Wiring.Mosi, node.Wiring.Miso }
            .Where(line => line is { IsCustomary: true, Written: not null }).Select(line => (line!.Signal, line.Written!)),
    ];

    private static LocatedMap Add(LocatedMap pins, List<(string Signal, string Pin)> lines)
    {
        foreach (var (signal, pin) in lines)
        {
            if (pins.Find(signal) is null)
                pins.Add(new(Word(pins, signal), Word(pins, pin)));
        }
        return pins;
    }

    private static LocatedScalar Word(LocatedMap map, string text) => new(map.Place, text);
}
