using RadioLint.Manifest;
using RadioLint.Text;

namespace RadioLint.Planning;

/// <summary>Edits that keep the layout of a file: block and flow style, JSON, one key a line or several.</summary>
internal sealed class MapLayout(SourceText source, bool isJson)
{
    private static readonly char[] LineEnds = ['\n', '\r'];
    private readonly string text = source.Text;

    /// <summary>True for a text in JSON: a map between brackets whose keys stand in double quotes.</summary>
    public static bool IsJson(string text)
    {
        var at = text.Length - text.TrimStart().Length;
        if (at == text.Length || text[at] != '{')
            return false;
        var inside = text.Substring(at + 1).TrimStart();
        return inside.Length > 0 && inside[0] is '"' or '}';
    }

    /// <summary>Another value in the place of one; an anchor before it stays, quotes stay where there are some.</summary>
    public Edit Replace(LocatedValue old, LocatedValue value)
    {
        var start = Content(old.Place.Start);
        var place = new Place(source, start, Math.Max(old.Place.End - start, 0));
        return old is LocatedScalar && value is LocatedScalar scalar && !isJson ? Edit.Value(place, FlowText.Of(scalar, isJson)) : new(place, FlowText.Of(value, isJson));
    }

    /// <summary>Further keys of a map, each behind the one that the table has before it; with how deep the map stands.</summary>
    public IEnumerable<(Edit Edit, int Depth)> Add(LocatedMap map, LocatedMap further, IMapShape? shape)
    {
        var isFlow = text[Content(map.Place.Start)] == '{';
        var depth = map.Entries.Count == 0 ? map.Place.Start : Column(map.Entries[0].Key.Place.Start);
        foreach (var group in further.Entries.GroupBy(entry => Anchor(map, shape, entry.Key.Text)).OrderBy(group => group.Key))
        {
            var entries = group.OrderBy(entry => Rank(shape, entry.Key.Text))
                .Select(entry => $"{FlowText.Key(entry.Key.Text, isJson)}: {FlowText.Of(InOrder(entry.Value, ChoicePlaces.Inner(shape, entry.Key.Text)), isJson)}").ToList();
            foreach (var edit in isFlow ? InFlow(map, group.Key, entries) : InBlock(map, group.Key, entries))
                yield return (edit, depth);
        }
    }

    // A new map has its keys as the reference has them.
    private static LocatedValue InOrder(LocatedValue value, IMapShape? shape)
    {
        if (value is not LocatedMap map || shape is null)
            return value;
        var sorted = new LocatedMap(map.Place);
        foreach (var entry in map.Entries.OrderBy(entry => Rank(shape, entry.Key.Text)))
            sorted.Add(new(entry.Key, InOrder(entry.Value, ChoicePlaces.Inner(shape, entry.Key.Text))));
        return sorted;
    }

    private IEnumerable<Edit> InBlock(LocatedMap map, int after, List<string> entries)
    {
        var indent = new string(' ', Column(map.Entries[0].Key.Place.Start));
        if (after < 0)
        {
            var start = map.Entries[0].Key.Place.Start;
            yield return Insert(start, string.Concat(entries.Select(entry => entry + NewLine(start) + indent)));
            yield break;
        }
        var end = LineEnd(End(map, after));
        yield return Insert(end, string.Concat(entries.Select(entry => NewLine(end) + indent + entry)));
    }

    private IEnumerable<Edit> InFlow(LocatedMap map, int after, List<string> entries)
    {
        var open = Content(map.Place.Start) + 1;
        if (map.Entries.Count == 0)
        {
            yield return Insert(open, $" {string.Join(", ", entries)}{(open < text.Length && text[open] == '}' ? " " : "")}");
            yield break;
        }
        var neighbour = map.Entries[Math.Max(after, 0)].Key.Place.Start;
        var hasOwnLine = IsBlank(LineStart(neighbour), neighbour);
        var indent = NewLine(neighbour) + new string(' ', Column(neighbour));
        if (after < 0)
        {
            yield return Insert(neighbour, string.Concat(entries.Select(entry => hasOwnLine ? $"{entry},{indent}" : $"{entry}, ")));
            yield break;
        }
        var end = End(map, after);
        var next = end;
        while (next < text.Length && text[next] is ' ' or '\t')
            next++;
        var hasComma = next < text.Length && text[next] == ',';
        var line = LineEnd(end);
        if (!hasOwnLine || !IsRest(hasComma ? next + 1 : end, line))
        {
            yield return Insert(end, string.Concat(entries.Select(entry => (hasOwnLine ? "," + indent : ", ") + entry)));
            yield break;
        }
        if (!hasComma)
            yield return Insert(end, ",");
        yield return Insert(line, indent + string.Join("," + indent, entries) + (hasComma ? "," : ""));
    }

    private Edit Insert(int at, string what) => new(new(source, at, 0), what);

    // The entry that the new key follows: the last in the file of those that the table has before it; -1 for none.
    private static int Anchor(LocatedMap map, IMapShape? shape, string key)
    {
        if (shape is null)
            return map.Entries.Count - 1;
        var rank = Rank(shape, key);
        var at = map.Entries.Count - 1;
        while (at >= 0 && Rank(shape, map.Entries[at].Key.Text) >= rank)
            at--;
        return at;
    }

    // Notes stand last in no table: nothing follows them.
    private static int Rank(IMapShape? shape, string key)
    {
        for (var i = 0; i < (shape?.Keys.Count ?? 0); i++)
        {
            if (shape!.Keys[i].Name == key)
                return i;
        }
        return int.MaxValue;
    }

    private int End(LocatedMap map, int at)
    {
        var entry = map.Entries[at];
        var end = End(entry.Value, entry.Key.Place.End);
        // A text in block style ends with the line ends that belong to it.
        while (end > entry.Key.Place.End && text[end - 1] is '\n' or '\r' or ' ')
            end--;
        return end;
    }

    // A value of another place is an alias here; a collection in block style ends where its last value does.
    private int End(LocatedValue value, int after)
    {
        if (value.Place.Length > 0 && value.Place.Start < after)
        {
            var star = text.IndexOf('*', after);
            var end = star < 0 ? -1 : text.IndexOfAny([' ', '\t', '\n', '\r', ',', '}', ']'], star);
            return end < 0 ? text.Length : end;
        }
        if (text.Length > Content(value.Place.Start) && text[Content(value.Place.Start)] is '{' or '[')
            return value.Place.End;
        switch (value)
        {
            case LocatedMap { Entries: [.., var last] }:
                return End(last.Value, last.Key.Place.End);
            case LocatedList { Items: var items }:
                var at = after;
                foreach (var item in items)
                    at = End(item, at);
                return at;
            default:
                return Math.Max(value.Place.End, after);
        }
    }

    // Past an anchor and what stands between it and the value.
    private int Content(int start)
    {
        if (start >= text.Length || text[start] != '&')
            return start;
        while (start < text.Length && !char.IsWhiteSpace(text[start]))
            start++;
        while (start < text.Length && (char.IsWhiteSpace(text[start]) || text[start] == '#'))
            start = text[start] == '#' ? LineEnd(start) : start + 1;
        return start;
    }

    private int LineStart(int at) => at == 0 ? 0 : text.LastIndexOfAny(LineEnds, at - 1) + 1;

    private int LineEnd(int at) => text.IndexOfAny(LineEnds, at) is >= 0 and var end ? end : text.Length;

    private int Column(int at) => at - LineStart(at);

    private bool IsBlank(int from, int to) => text.Substring(from, to - from).Trim().Length == 0;

    // Nothing but a comment.
    private bool IsRest(int from, int to) => text.Substring(from, to - from).TrimStart() is "" or ['#', ..];

    // As the line there ends; that of the last line as the first one.
    private string NewLine(int at)
    {
        var end = text.IndexOfAny(LineEnds, at);
        end = end < 0 ? text.IndexOfAny(LineEnds) : end;
        return end < 0 ? "\n" : text[end] == '\r' && end + 1 < text.Length && text[end + 1] == '\n' ? "\r\n" : text[end].ToString();
    }
}
