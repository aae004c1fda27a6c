using YamlDotNet.RepresentationModel;

namespace Proof;

/// <summary>Reads of a manifest what its radios need, and passes over the rest. The manifest is one that has been found right: nothing is checked here.</summary>
public static class Manifest
{
    public static PlainNetwork Read(string text)
    {
        var yaml = new YamlStream();
        yaml.Load(new StringReader(text));
        var root = (YamlMappingNode)yaml.Documents[0].RootNode;
        if (root.Children.ContainsKey("include"))
            throw new UnjudgedException("an include");
        var air = Map(root, "air");
        var all = Map(root, "all-nodes");
        var payloads = Map(root, "payloads").Children.ToDictionary(one => one.Key.ToString(), one => PayloadBytes.Of((YamlMappingNode)one.Value), StringComparer.Ordinal);
        var nodes = Map(root, "nodes").Children.SelectMany(one => Nodes(one.Key.ToString(), (YamlMappingNode)one.Value, all, air)).ToList();
        var links = root.Children.TryGetValue("links", out var list) ? ((YamlSequenceNode)list).Children.Select(one => Link((YamlMappingNode)one, nodes, payloads)).ToList() : [];
        return new(Text(root, "network")!, nodes, links);
    }

    private static IEnumerable<PlainNode> Nodes(string entry, YamlMappingNode own, YamlMappingNode all, YamlMappingNode air)
    {
        if (!own.Children.TryGetValue("each", out var each))
            return [Node(entry, entry, [own, all], air)];
        if (each is YamlMappingNode map)
            return map.Children.Select(one => Node($"{entry}-{one.Key}", entry, [one.Value as YamlMappingNode ?? [], own, all], air));
        var names = each is YamlSequenceNode list ? list.Children.Select(one => one.ToString()) : Range(each.ToString());
        return names.Select(name => Node($"{entry}-{name}", entry, [own, all], air));
    }

    private static IEnumerable<string> Range(string text)
    {
        var ends = text.Split("..").Select(Quantities.Count).ToList();
        return Enumerable.Range(ends[0], ends[^1] - ends[0] + 1).Select(number => FormattableString.Invariant($"{number}"));
    }

    // The first layer that has a key decides for all of it; air alone is joined key by key.
    private static PlainNode Node(string name, string entry, YamlMappingNode[] layers, YamlMappingNode air)
    {
        YamlNode? Own(string key) => layers.Select(layer => layer.Children.TryGetValue(key, out var value) ? value : null).FirstOrDefault(value => value is not null);
        var ownAir = Own("air") as YamlMappingNode ?? [];
        string? Air(string key) => Text(ownAir, key) ?? Text(air, key);
        var repeats = Own("retry") as YamlMappingNode ?? (Map(ownAir, "retry") is { Children.Count: > 0 } inner ? inner : Map(air, "retry"));
        YamlNode? Retry(string key) => repeats.Children.TryGetValue(key, out var value) ? value : null;
        var pins = Own("pins") as YamlMappingNode ?? [];
        var blank = new PlainNode(name, entry);
        return blank with
        {
            Part = Own("radio") is YamlMappingNode radio ? Text(radio, "part") ?? blank.Part : blank.Part,
            Channel = Quantities.Channel(Air("channel") ?? throw new UnjudgedException("an open channel")),
            Rate = Air("rate") ?? blank.Rate,
            Width = Air("address-width") is { } width ? Quantities.Count(width) : blank.Width,
            Crc = Air("crc") is { } crc ? Quantities.Crc(crc) : blank.Crc,
            Acknowledge = Air("acknowledge") is { } flag ? Quantities.Flag(flag) : blank.Acknowledge,
            Length = Air("payload-length") ?? blank.Length,
            NoAcknowledge = Air("no-acknowledge") is { } no ? Quantities.Flag(no) : null,
            Delays = Retry("delay") is { } delay && delay.ToString() != "open" ? [.. Several(delay).Select(Quantities.Microseconds)] : [],
            Limit = Retry("limit") is { } limit ? Quantities.Count(limit.ToString()) : blank.Limit,
            Power = Own("power")?.ToString() ?? blank.Power,
            Test = Own("test")?.ToString() ?? blank.Test,
            IrqFor = Map(pins, "irq").Children.TryGetValue("for", out var sources) ? [.. Several(sources)] : null,
            HasTiedCe = Text(pins, "ce") == "tied high",
            Pipes = Own("pipes") is YamlMappingNode pipes ? [.. pipes.Children.Select(one => Pipe(one.Key.ToString(), one.Value)).OrderBy(pipe => pipe.Number)] : null,
        };
    }

    private static PlainPipe Pipe(string number, YamlNode value)
    {
        var map = value as YamlMappingNode;
        var address = map is null ? value.ToString() : Text(map, "address")!;
        return new(
            Quantities.Count(number), address == "closed" ? null : Hex(address),
            map is not null && Text(map, "acknowledge") is { } flag ? Quantities.Flag(flag) : null, map is null ? null : Text(map, "payload-length"));
    }

    private static PlainLink Link(YamlMappingNode link, List<PlainNode> nodes, Dictionary<string, int> payloads)
    {
        var from = link.Children["from"];
        var payload = Text(link, "payload")!;
        return new(string.Join(", ", Several(from)), Named(from, nodes), Named(link.Children["to"], nodes), payload, payloads[payload])
        {
            Acknowledge = Text(link, "acknowledge") is { } flag ? Quantities.Flag(flag) : null,
            Broadcasts = Text(link, "broadcast") == "true",
            RidesBack = Text(link, "with") == "acknowledgement",
            Address = link.Children.TryGetValue("address", out var address) ? Hex(address is YamlScalarNode one ? one.Value! : throw new UnjudgedException("an address as text or bytes")) : null,
            Pipe = Text(link, "pipe") switch { null => null, "own" or "shared" => throw new UnjudgedException("own or shared pipes"), var number => Quantities.Count(number) },
        };
    }

    private static List<PlainNode> Named(YamlNode value, List<PlainNode> nodes) =>
        [.. Several(value).SelectMany(name => nodes.Where(node => node.Name == name) is var one && one.Any() ? one
            : nodes.Where(node => node.Entry == name) is var group && group.Any() ? group : throw new UnjudgedException($"a part of a group: {name}"))];

    private static IEnumerable<string> Several(YamlNode value) => value is YamlSequenceNode list ? list.Children.Select(one => one.ToString()) : [value.ToString()];

    private static string Hex(string address) => address.StartsWith("0x", StringComparison.Ordinal) ? address[2..].ToUpperInvariant() : throw new UnjudgedException($"an address {address}");

    private static string? Text(YamlMappingNode map, string key) => map.Children.TryGetValue(key, out var value) ? value is YamlScalarNode one ? one.Value : value.ToString() : null;

    private static YamlMappingNode Map(YamlMappingNode map, string key) => map.Children.TryGetValue(key, out var value) && value is YamlMappingNode inner ? inner : [];
}
