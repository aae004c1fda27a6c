using System.Globalization;
using System.Text.RegularExpressions;
using CsCheck;
using RadioLint.Tests.Support;
using YamlDotNet.RepresentationModel;

namespace RadioLint.Tests.Properties;

/// <summary>
/// Networks at random out of all that fixtures, rule pages, examples and the reference write: one of them with values exchanged for those that others have at the same
/// key, keys added and taken away, figures moved by a step or put where they do not belong. The same for a seed everywhere.
/// </summary>
public sealed partial class NetworkDraw(ulong seed)
{
    private static readonly string[] Wild = ["0", "-1", "1", "true", "none", "open", "99999999999999999999", "1e9", "3.3 V", "0 us", "-40..85 degC", "5..1 m", "closed", "0x00", "0xFFFFFFFFFF", "nobody", "~", "2 x AA alkaline"];

    private static readonly List<YamlMappingNode> Bases = [.. Texts().Select(Trees.Read).OfType<YamlMappingNode>().Where(root => root.Children.ContainsKey("nodes") && root.Children.ContainsKey("radiolint"))];

    // By kind of map: every key with the values that somebody gives it.
    private static readonly Dictionary<string, List<(string Key, YamlNode Value)>> Pool = Bases.SelectMany(root => Trees.Maps(root))
        .GroupBy(one => one.Kind).ToDictionary(group => group.Key, group => group.SelectMany(one => one.Map.Children.Select(pair => (pair.Key.ToString(), pair.Value))).ToList(), StringComparer.Ordinal);

    private readonly PCG dice = new(1, seed);

    /// <summary>All kinds of keys that draws are made of.</summary>
    public static IReadOnlySet<string> Kinds { get; } = Pool.SelectMany(map => map.Value.Select(one => Trees.Below(map.Key, one.Key))).ToHashSet();

    public int Below(int limit) => (int)dice.Next((uint)limit);

    /// <summary>Nearly half are plausible, with values of others at most; a quarter are near misses, with one thing wrong; the rest wild.</summary>
    public YamlMappingNode Next()
    {
        var root = (YamlMappingNode)Trees.Copy(Bases[Below(Bases.Count)]);
        var (exchanges, steps, wilds) = Below(20) switch { < 3 => (0, 0, 0), < 9 => (1 + Below(3), 0, 0), < 14 => (Below(3), 1, 0), _ => (2 + Below(8), Below(4), 1 + Below(4)) };
        for (var i = 0; i < exchanges; i++)
            Exchange(root);
        for (var i = 0; i < steps; i++)
            Step(root);
        for (var i = 0; i < wilds; i++)
            Spoil(root);
        return root;
    }

    private static IEnumerable<string> Texts() =>
    [
        .. Fixtures.All().Where(file => file.EndsWith(".yaml", StringComparison.Ordinal)).Select(file => File.ReadAllText(Path.Combine(Fixtures.Rules, file))),
        .. Fixtures.OfPages().Select(page => page.Text),
        .. Fixtures.Examples().Select(file => File.ReadAllText(Path.Combine(Fixtures.Root, file))),
        .. Reference(),
    ];

    // The reference shows parts; each is completed to a network.
    private static IEnumerable<string> Reference()
    {
        foreach (var block in Fixtures.Blocks(File.ReadAllText(Path.Combine(Fixtures.Root, "docs", "manifest.md")), "yaml"))
        {
            var head = (block.Contains("radiolint:", StringComparison.Ordinal) ? "" : "radiolint: 1\n") + (block.Contains("\nnodes:", StringComparison.Ordinal) || block.StartsWith("nodes:", StringComparison.Ordinal) ? "" : "nodes: { hall: { board: esp32 } }\n");
            yield return head + block;
        }
    }

    // A key of some map gets what another manifest has there, or comes newly.
    private void Exchange(YamlMappingNode root)
    {
        var (kind, map) = Any(root);
        if (!Pool.TryGetValue(kind, out var pool))
            return;
        var (key, value) = pool[Below(pool.Count)];
        if (kind is "nodes" or "" && key is "nodes" or "links")
            return;
        map.Children[new YamlScalarNode(key)] = Trees.Copy(kind == "links[]" ? Fitting(root, key, value) : value);
    }

    // Links speak of nodes and payloads that are there.
    private YamlNode Fitting(YamlMappingNode root, string key, YamlNode value)
    {
        var from = key switch { "from" or "to" => "nodes", "payload" => "payloads", _ => null };
        return from is not null && root.Children.TryGetValue(from, out var there) && there is YamlMappingNode { Children.Count: > 0 } map
            ? new YamlScalarNode(map.Children[Below(map.Children.Count)].Key.ToString())
            : value;
    }

    // One figure, one smallest step.
    private void Step(YamlMappingNode root)
    {
        for (var tries = 0; tries < 20; tries++)
        {
            var (kind, map) = Any(root);
            var scalars = map.Children.Where(one => one.Value is YamlScalarNode { Value: { } text } && Figure().IsMatch(text)).ToList();
            if (scalars.Count == 0 || kind.Length == 0)
                continue;
            var (key, value) = scalars[Below(scalars.Count)];
            var by = new[] { 1, -1, 10 }[Below(3)];
            map.Children[key] = new YamlScalarNode(Figure().Replace(((YamlScalarNode)value).Value!, match => Moved(match.Value, by), 1));
            return;
        }
    }

    private static string Moved(string digits, int by) =>
        long.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? Math.Max(0, by == 10 ? number * 10 : number + by).ToString(CultureInfo.InvariantCulture) : digits;

    // A key goes, or its value is something else altogether.
    private void Spoil(YamlMappingNode root)
    {
        var (kind, map) = Any(root);
        if (map.Children.Count == 0 || kind.Length == 0)
            return;
        var key = map.Children[Below(map.Children.Count)].Key;
        if (Below(3) == 0)
            map.Children.Remove(key);
        else
            map.Children[key] = Below(3) == 0 ? Trees.Copy(Elsewhere()) : new YamlScalarNode(Wild[Below(Wild.Length)]);
    }

    private YamlNode Elsewhere()
    {
        var root = Bases[Below(Bases.Count)];
        var (_, map) = Any(root);
        return map.Children.Count == 0 ? map : map.Children[Below(map.Children.Count)].Value;
    }

    private (string Kind, YamlMappingNode Map) Any(YamlMappingNode root)
    {
        var maps = Trees.Maps(root).ToList();
        return maps[Below(maps.Count)];
    }

    [GeneratedRegex("(?<![0-9A-Za-z.])[0-9]+(?![0-9A-Za-z])")]
    private static partial Regex Figure();
}
