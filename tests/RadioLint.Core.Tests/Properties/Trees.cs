using YamlDotNet.Core;
using YamlDotNet.RepresentationModel;

namespace RadioLint.Tests.Properties;

/// <summary>Manifests as trees: read, written, copied, and walked by kind, which is the path of a key without the names that users give.</summary>
public static class Trees
{
    /// <summary>Null where the text is no single map that a general reader takes.</summary>
    public static YamlMappingNode? Read(string text)
    {
        try
        {
            var yaml = new YamlStream();
            yaml.Load(new StringReader(text));
            return yaml.Documents.Count == 1 ? yaml.Documents[0].RootNode as YamlMappingNode : null;
        }
        catch (Exception fault) when (fault is YamlException or InvalidOperationException or ArgumentException)
        {
            return null;
        }
    }

    public static string Write(YamlMappingNode root)
    {
        using var writer = new StringWriter { NewLine = "\n" };
        new YamlStream(new YamlDocument(root)).Save(writer, assignAnchors: false);
        return writer.ToString().Replace("\r\n", "\n", StringComparison.Ordinal).Replace("\n...\n", "\n", StringComparison.Ordinal);
    }

    public static YamlNode Copy(YamlNode node) => node switch
    {
        YamlMappingNode map => Filled(new YamlMappingNode { Style = map.Style }, map),
        YamlSequenceNode list => new YamlSequenceNode(list.Children.Select(Copy)) { Style = list.Style },
        YamlScalarNode scalar => new YamlScalarNode(scalar.Value) { Style = scalar.Style },
        _ => throw new InvalidOperationException(node.GetType().Name),
    };

    /// <summary>Every map of a tree with its kind: `nodes.*.pins`, `links[]`, `` for the root.</summary>
    public static IEnumerable<(string Kind, YamlMappingNode Map)> Maps(YamlNode node, string kind = "")
    {
        switch (node)
        {
            case YamlMappingNode map:
                yield return (kind, map);
                foreach (var inner in map.Children.SelectMany(one => Maps(one.Value, Below(kind, one.Key.ToString()))))
                    yield return inner;
                break;
            case YamlSequenceNode list:
                foreach (var inner in list.Children.SelectMany(one => Maps(one, kind + "[]")))
                    yield return inner;
                break;
            default:
                break;
        }
    }

    /// <summary>The kind of a key's value; what all nodes share is the node's own kind.</summary>
    public static string Below(string kind, string key) => kind switch
    {
        "" when key == "all-nodes" => "nodes.*",
        "" => key,
        "nodes" or "payloads" or "boards" => kind + ".*",
        "nodes.*.each" => "nodes.*",
        _ => $"{kind}.{key}",
    };

    /// <summary>The same with the keys of every map in another order; the fields of payloads and bits stay, since theirs is the order on the air.</summary>
    public static YamlNode Shuffled(YamlNode node, Func<int, int> below, string kind = "")
    {
        switch (node)
        {
            case YamlMappingNode map:
                var entries = map.Children.Select(one => (Key: Copy(one.Key), Value: Shuffled(one.Value, below, Below(kind, one.Key.ToString())))).ToList();
                for (var i = entries.Count - 1; i > 0 && !kind.StartsWith("payloads.*", StringComparison.Ordinal); i--)
                {
                    var other = below(i + 1);
                    (entries[i], entries[other]) = (entries[other], entries[i]);
                }
                var shuffled = new YamlMappingNode { Style = map.Style };
                entries.ForEach(one => shuffled.Add(one.Key, one.Value));
                return shuffled;
            case YamlSequenceNode list:
                return new YamlSequenceNode(list.Children.Select(one => Shuffled(one, below, kind + "[]"))) { Style = list.Style };
            default:
                return Copy(node);
        }
    }

    private static YamlMappingNode Filled(YamlMappingNode into, YamlMappingNode from)
    {
        foreach (var (key, value) in from.Children)
            into.Add(Copy(key), Copy(value));
        return into;
    }
}
