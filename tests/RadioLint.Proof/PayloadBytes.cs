using YamlDotNet.RepresentationModel;

namespace Proof;

/// <summary>How many bytes a payload has on the air: fields one after the other, or as a compiler lays a struct out (`layout: natural`).</summary>
internal static class PayloadBytes
{
    public static int Of(YamlMappingNode payload)
    {
        var fields = payload;
        var isNatural = false;
        if (payload.Children.TryGetValue("fields", out var inner) && inner is YamlMappingNode map)
        {
            fields = map;
            isNatural = payload.Children.TryGetValue("layout", out var layout) && layout.ToString() == "natural";
        }
        int at = 0, widest = 1;
        var values = fields.Children.Values.ToList();
        if (isNatural && payload.Children.TryGetValue("order", out var order))
            values = order is YamlSequenceNode names ? [.. names.Children.Select(name => fields.Children[name])] : throw new UnjudgedException("an order of fields that is open");
        foreach (var value in values)
        {
            var (size, count, alignment) = Field(value);
            if (isNatural)
            {
                at = Up(at, alignment);
                widest = Math.Max(widest, alignment);
            }
            at += size * count;
        }
        return isNatural ? Up(at, widest) : at;
    }

    private static int Up(int at, int alignment) => (at + alignment - 1) / alignment * alignment;

    private static (int Size, int Count, int Alignment) Field(YamlNode value)
    {
        if (value is YamlMappingNode { Children: [var (key, inner)] })
            return key.ToString() == "bits" ? Bits(inner) : Simple(key.ToString(), 1);
        var words = value.ToString().Split(' ');
        var count = 1;
        if (words.Length > 2 && words[1] == "x")
        {
            count = Quantities.Count(words[0]);
            words = words[2..];
        }
        return words[0] is "text" or "bytes" ? (Quantities.Count(words[1]), count, 1) : Simple(words[0], count);
    }

    private static (int Size, int Count, int Alignment) Bits(YamlNode names)
    {
        var bits = names is YamlMappingNode map ? map.Children.Sum(one => Quantities.Count(one.Value.ToString())) : ((YamlSequenceNode)names).Children.Count;
        var size = (bits + 7) / 8;
        return (size, 1, size == 3 ? 1 : size);
    }

    private static (int Size, int Count, int Alignment) Simple(string type, int count)
    {
        var size = type switch
        {
            "int8" or "uint8" => 1,
            "int16" or "uint16" => 2,
            "int32" or "uint32" or "float32" => 4,
            "int64" or "uint64" => 8,
            _ => throw new UnjudgedException($"a field of {type}"),
        };
        return (size, count, size);
    }
}
