namespace RadioLint.Text;

/// <summary>Adds a key to a map, in the style that the map is written in: block, flow or JSON.</summary>
public static class KeyEdit
{
    private static readonly char[] LineEnds = ['\n', '\r'];

    /// <summary>After a single value of the map; a comment behind that value stays where it is.</summary>
    public static Edit After(Place map, Place value, string key, string text) => After(map, value, (key, text));

    /// <summary>Several keys after a single value of the map.</summary>
    public static Edit After(Place map, Place value, params (string Key, string Text)[] entries)
    {
        if (IsFlow(map))
            return new(new(value.Source, value.End, 0), string.Concat(entries.Select(entry => ", " + Entry(map, entry.Key, entry.Text))));
        var all = value.Source.Text;
        var end = all.IndexOfAny(LineEnds, value.End);
        return new(
            new(value.Source, end < 0 ? all.Length : end, 0),
            string.Concat(entries.Select(entry => NewLine(all) + Indent(all, value.Start) + Entry(map, entry.Key, entry.Text))));
    }

    /// <summary>Before a key of the map.</summary>
    public static Edit Before(Place map, Place next, string key, string text)
    {
        var all = next.Source.Text;
        return new(new(next.Source, next.Start, 0), Entry(map, key, text) + (IsFlow(map) ? ", " : NewLine(all) + Indent(all, next.Start)));
    }

    /// <summary>Another name behind one of a list between brackets.</summary>
    public static Edit ItemAfter(Place item, string name) => new(new(item.Source, item.End, 0), $", {Item(item, name)}");

    /// <summary>Another name before one of a list between brackets.</summary>
    public static Edit ItemBefore(Place item, string name) => new(new(item.Source, item.Start, 0), $"{Item(item, name)}, ");

    /// <summary>A small map as a value, quoted where the file is JSON.</summary>
    public static string Map(Place map, params (string Key, string Text)[] entries) =>
        "{ " + string.Join(", ", entries.Select(entry => Entry(map, entry.Key, entry.Text))) + " }";

    /// <summary>A single value in the stead of a whole map or list, quoted where the file is JSON.</summary>
    public static Edit Instead(Place value, string text) => IsJson(value.Source) ? new(value, $"\"{text}\"") : Edit.Value(value, text);

    /// <summary>True when a key can be written after the value: it ends on the line that its own key stands on.</summary>
    public static bool CanFollow(Place value)
    {
        var all = value.Source.Text;
        var start = value.Start == 0 ? 0 : all.LastIndexOfAny(LineEnds, value.Start - 1) + 1;
        return all.IndexOfAny(LineEnds, value.Start, value.Length) < 0 && all.Substring(start, value.Start - start).Trim().Length > 0;
    }

    /// <summary>The smallest of some maps that a place lies in; the place itself when it lies in none.</summary>
    public static Place Around(Place inner, params Place[] maps) => maps
        .Where(map => map.Source == inner.Source && map.Start <= inner.Start && inner.End <= map.End)
        .OrderBy(map => map.Length).Cast<Place?>().FirstOrDefault() ?? inner;

    private static bool IsFlow(Place map) => map.Length > 0 && map.Source.Text[map.Start] == '{';

    private static bool IsJson(SourceText source) => source.Text.TrimStart().StartsWith("{", StringComparison.Ordinal);

    private static string Entry(Place map, string key, string text)
    {
        if (!IsJson(map.Source))
            return $"{key}: {text}";
        var isBare = text is "true" or "false" || text[0] is '{' or '"' || text.All(c => c is >= '0' and <= '9');
        return $"\"{key}\": " + (isBare ? text : $"\"{text}\"");
    }

    private static string Item(Place item, string name) => IsJson(item.Source) ? $"\"{name}\"" : name;

    private static string NewLine(string all) => all.IndexOf("\r\n", StringComparison.Ordinal) >= 0 ? "\r\n" : "\n";

    // Up to the column of the key, past the dashes of lists.
    private static string Indent(string all, int at)
    {
        var start = at == 0 ? 0 : all.LastIndexOfAny(LineEnds, at - 1) + 1;
        var column = start;
        while (column < all.Length && (all[column] == ' ' || (all[column] == '-' && column + 1 < all.Length && all[column + 1] == ' ')))
            column++;
        return new(' ', column - start);
    }
}
