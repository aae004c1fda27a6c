using RadioLint.Manifest;
using RadioLint.Manifest.Keys;
using RadioLint.Model;

namespace RadioLint.Planning;

/// <summary>Where one choice is written.</summary>
/// <param name="Map">The map that takes it.</param>
/// <param name="Shape">The table of that map's keys; null where none is known.</param>
/// <param name="Path">The keys below the map.</param>
/// <param name="Value">What is to stand there.</param>
/// <param name="Replaces">What stands there now; null for a further key.</param>
internal sealed record ChoiceSpot(Choice Choice, LocatedMap Map, IMapShape? Shape, IReadOnlyList<string> Path, LocatedValue Value, LocatedValue? Replaces)
{
    /// <summary>The map of another place whose keys the first key of the path takes over; null where there is none.</summary>
    public LocatedMap? TakesOver { get; init; }

    /// <summary>Adds it to the further keys of its map.</summary>
    public void AddTo(LocatedMap further)
    {
        var map = further;
        for (var i = 0; i < Path.Count - 1; i++)
        {
            if (map.Find(Path[i])?.Value is not LocatedMap inner)
            {
                inner = new(Map.Place);
                map.Add(new(Word(Path[i]), inner));
                foreach (var entry in i == 0 && TakesOver is not null ? TakesOver.Entries : [])
                    inner.Add(new(entry.Key, Copy(entry.Value)));
            }
            map = inner;
        }
        var last = Path[Path.Count - 1];
        for (var at = 0; at < map.Entries.Count; at++)
        {
            if (map.Entries[at].Key.Text == last)
            {
                map.Replace(at, Value);
                return;
            }
        }
        map.Add(new(Word(last), Value));
    }

    private LocatedScalar Word(string key) => new(Map.Place, key);

    // What is added to the copy must not be added to the original.
    private static LocatedValue Copy(LocatedValue value)
    {
        if (value is not LocatedMap map)
            return value;
        var copy = new LocatedMap(map.Place);
        foreach (var entry in map.Entries)
            copy.Add(new(entry.Key, Copy(entry.Value)));
        return copy;
    }
}

/// <summary>Finds for each choice the map of the file that states, or would state, its key.</summary>
internal sealed class ChoicePlaces
{
    private const string Repeated = "aliases repeat the part that it belongs into; write it where it is to hold";

    private readonly Network network;
    private readonly LocatedMap root;
    private readonly LocatedMap? entries;
    private readonly Dictionary<Node, LocatedMap[]> layers = [];
    private readonly HashSet<LocatedValue> repeated = [];
    private readonly Dictionary<(Node Node, string Key), string> wanted = [];

    private readonly Dictionary<string, ILookup<LocatedMap, Node>> users = new(StringComparer.Ordinal);
    private readonly Dictionary<RadioLint.Text.Place, LocatedMap> links = [];

    // By the first key: a map that is taken over is taken over for all of them.
    private ILookup<(Node Node, string Key), Choice> byKey = Enumerable.Empty<Choice>().ToLookup(_ => default((Node, string)));

    public ChoicePlaces(Network network, LocatedMap root)
    {
        (this.network, this.root) = (network, root);
        entries = root.Find(RootKeys.Nodes.Name)?.Value as LocatedMap;
        var allNodes = root.Find(RootKeys.AllNodes.Name)?.Value as LocatedMap;
        foreach (var node in network.DistinctNodes)
        {
            if (entries?.Find(node.Entry)?.Value is LocatedMap entry)
                layers[node] = [.. new[] { Member(entry, node), entry, allNodes }.OfType<LocatedMap>()];
        }
        var written = root.Find(RootKeys.Links.Name)?.Value;
        foreach (var link in new[] { written }.Concat((written as LocatedList)?.Items ?? []).OfType<LocatedMap>())
            links[link.Place] = link;
        Count(root, []);
    }

    /// <summary>The same choices, each once, with what nodes have in common known beforehand.</summary>
    public IReadOnlyList<Choice> InOrder(IEnumerable<Choice> choices)
    {
        var all = choices.ToList();
        foreach (var choice in all)
        {
            if (choice.Target is Node node)
                wanted[(node, choice.Key)] = choice.Value;
        }
        byKey = all.Where(choice => choice.Target is Node).ToLookup(choice => ((Node)choice.Target!, choice.Key.Split('.')[0]));
        return all;
    }

    /// <summary>Where it is written; null, and why, when it has no place in this file.</summary>
    public ChoiceSpot? Of(Choice choice, out string why)
    {
        var path = choice.Key.Split('.');
        switch (choice.Target)
        {
            case null:
                return Below(choice, root, RootKeys.Shape, path, [root], out why);
            case Node node:
                return OfNode(choice, node, path, out why);
            case Link link:
                return Below(choice, links.TryGetValue(link.Place, out var map) ? map : null, LinkKeys.Shape, path, [root.Find(RootKeys.Links.Name)?.Value, map], out why);
            case Payload payload when !ReferenceEquals(payload.NamePlace.Source, network.Source):
                why = $"it stands in `{payload.NamePlace.Source.Name}`, which is not written to";
                return null;
            case Payload payload:
                var payloads = root.Find(RootKeys.Payloads.Name)?.Value as LocatedMap;
                var form = payloads?.Find(payload.Name)?.Value as LocatedMap;
                return Below(choice, form, null, path, [payloads, form], out why);
            default:
                why = "it belongs to nothing of the manifest";
                return null;
        }
    }

    private ChoiceSpot? OfNode(Choice choice, Node node, string[] path, out string why)
    {
        why = "";
        if (!layers.TryGetValue(node, out var own))
        {
            why = $"`{node.Name}` has no map of its own in this file";
            return null;
        }
        var owner = Array.Find(own, map => map.Find(path[0]) is not null);
        var nearest = own[0];
        if (owner is not null && byKey[(node, path[0])].All(one => Users(owner, own, path[0]).All(other => Allows(other, owner, isOwn: nearest == owner, one))))
            return Below(choice, owner, NodeKeys.OfNode.Shape, path, [entries, owner], out why);
        if (nearest == owner)
        {
            why = $"other nodes take `{path[0]}` from the same map; write it for each of them";
            return null;
        }
        // What others take from there stays; the node's own key takes the place of the whole, so it repeats the rest.
        var taken = owner ?? InheritedRetry(own, path[0]);
        return Checked(new(choice, nearest, NodeKeys.OfNode.Shape, path, FlowText.Read(choice.Value), null) { TakesOver = taken?.Find(path[0])?.Value as LocatedMap }, [entries, nearest], out why);
    }

    // A node's `retry` takes the place of the one under `air`, which else holds for it.
    private LocatedMap? InheritedRetry(LocatedMap[] own, string key)
    {
        if (key != NodeKeys.OfNode.Retry.Name)
            return null;
        var air = Array.Find(own, map => map.Find(NodeKeys.OfNode.Air.Name) is not null)?.Find(NodeKeys.OfNode.Air.Name)?.Value as LocatedMap;
        return new[] { air, root.Find(RootKeys.Air.Name)?.Value as LocatedMap }.FirstOrDefault(map => map?.Find(key) is not null);
    }

    private IEnumerable<Node> Users(LocatedMap owner, LocatedMap[] own, string key)
    {
        if (!users.TryGetValue(key, out var byOwner))
        {
            byOwner = layers.Select(pair => (pair.Key, Owner: Array.Find(pair.Value, map => map.Find(key) is not null))).Where(one => one.Owner is not null).ToLookup(one => one.Owner!, one => one.Key);
            users.Add(key, byOwner);
        }
        return byOwner[owner].Where(node => layers[node] != own);
    }

    // Another node that takes a key from a map is to have the same, or is given a map of its own.
    private bool Allows(Node other, LocatedMap owner, bool isOwn, Choice choice) =>
        wanted.TryGetValue((other, choice.Key), out var value) && (value == choice.Value || (isOwn && layers[other][0] != owner));

    private ChoiceSpot? Below(Choice choice, LocatedMap? map, IMapShape? shape, string[] path, LocatedValue?[] passed, out string why)
    {
        if (map is null)
        {
            why = "the map that it belongs into is not in this file";
            return null;
        }
        var all = passed.ToList();
        var at = 0;
        while (at < path.Length - 1 && map.Find(path[at]) is { } entry)
        {
            if (entry.Value is not LocatedMap inner)
            {
                why = $"`{path[at]}` is {entry.Value.Kind} there, and no map";
                return null;
            }
            (map, shape) = (inner, Inner(shape, path[at]));
            all.Add(map);
            at++;
        }
        var old = at == path.Length - 1 ? map.Find(path[at])?.Value : null;
        all.Add(old);
        return Checked(new(choice, map, shape, [.. path.Skip(at)], FlowText.Read(choice.Value), old), all, out why);
    }

    private ChoiceSpot? Checked(ChoiceSpot spot, IEnumerable<LocatedValue?> passed, out string why)
    {
        why = passed.Any(value => value is not null && repeated.Contains(value)) ? Repeated : "";
        return why.Length > 0 ? null : spot;
    }

    /// <summary>The table of the map that a key holds; null where there is none.</summary>
    public static IMapShape? Inner(IMapShape? shape, string name)
    {
        var form = shape?.Keys.FirstOrDefault(key => key.Name == name)?.Shape.Form;
        return form is SchemaForm.Map { Shape: var inner } ? inner : form is SchemaForm.AnyOf any ? any.Choices.OfType<SchemaForm.Map>().FirstOrDefault()?.Shape : null;
    }

    private static LocatedMap? Member(LocatedMap entry, Node node)
    {
        if (node.Name.Length <= node.Entry.Length + 1 || entry.Find(NodeKeys.OfNode.Each.Name)?.Value is not LocatedMap members)
            return null;
        return members.Find(node.Name.Substring(node.Entry.Length + 1))?.Value as LocatedMap;
    }

    private void Count(LocatedValue value, HashSet<LocatedValue> seen)
    {
        if (!seen.Add(value))
        {
            repeated.Add(value);
            return;
        }
        foreach (var entry in (value as LocatedMap)?.Entries ?? [])
            Count(entry.Value, seen);
        foreach (var item in (value as LocatedList)?.Items ?? [])
            Count(item, seen);
    }
}
