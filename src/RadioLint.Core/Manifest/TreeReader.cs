using RadioLint.Findings;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace RadioLint.Manifest;

/// <summary>
/// Reads YAML 1.2 or JSON into the located tree through the event parser alone. Bounds depth and what aliases stand for;
/// every fault has a place. The parser stops at its first syntax error, so there is at most one of those.
/// </summary>
public sealed class TreeReader
{
    /// <summary>The deepest nesting that is read.</summary>
    public const int MaxDepth = 64;

    /// <summary>The most values that aliases may stand for in one file.</summary>
    public const int MaxAliasedValues = 100_000;

    /// <summary>The most values that one file may hold.</summary>
    public const int MaxValues = 1_000_000;

    private readonly SourceText source;
    private readonly List<Finding> findings;
    private readonly bool isJson;
    private readonly Dictionary<string, LocatedValue?> anchors = new(StringComparer.Ordinal);
    private readonly Stack<int> openBrackets = new();
    private readonly Parser parser;
    private readonly WordStore words = new();
    private int values;
    private int aliasedValues;
    private int depth;
    private int lastEnd;

    private TreeReader(SourceText source, List<Finding> findings)
    {
        this.source = source;
        this.findings = findings;
        isJson = source.Name.EndsWith(".json", StringComparison.OrdinalIgnoreCase);
        parser = new Parser(new Scanner(new StringReader(source.Text), skipComments: !isJson));
    }

    /// <summary>The file's one document, or null with a finding that says why.</summary>
    public static LocatedValue? Read(SourceText source, List<Finding> findings)
    {
        var reader = new TreeReader(source, findings);
        try
        {
            return reader.Document();
        }
        catch (UnreadableException fault)
        {
            if (!fault.IsSaid)
                findings.Add(fault.Finding);
        }
        catch (YamlException fault)
        {
            var (start, sentence) = ParserFault.Of(fault, source);
            findings.Add(start < source.Text.Length && source.Text[start] == '\t' ? NotPlainText.Tab(new(source, start, 1)) : SyntaxError.At(reader.PlaceFrom(start, 1), sentence));
        }
        // The parser throws these, without a position, for some brackets left open and for odd tags and escapes.
        catch (Exception fault) when (fault is InvalidOperationException or ArgumentException)
        {
            findings.Add(reader.openBrackets.Count > 0
                ? SyntaxError.At(reader.PlaceFrom(reader.openBrackets.Peek(), 1), "this bracket is not closed, or something inside it cannot be read")
                : SyntaxError.At(reader.PlaceFrom(reader.lastEnd, 1), "the text cannot be read from here on: a bracket, quote or escape is wrong"));
        }
        return null;
    }

    private LocatedValue? Document()
    {
        Next<StreamStart>();
        if (Next() is StreamEnd)
        {
            findings.Add(NothingToCheck.EmptyFile(PlaceFrom(0, 0)));
            return null;
        }
        var root = Value(Next());
        Next<DocumentEnd>();
        if (Next() is DocumentStart second)
            throw Unreadable(PlaceOf(second), "a second document starts here; one file holds one network");
        return root;
    }

    private LocatedValue Value(ParsingEvent at)
    {
        if (++values > MaxValues)
            throw Unreadable(PlaceOf(at), FormattableString.Invariant($"the file holds more than {MaxValues} values"));
        return ValueAt(at);
    }

    private LocatedValue ValueAt(ParsingEvent at) => at switch
    {
        Scalar scalar => Scalar(scalar),
        SequenceStart start => List(start),
        MappingStart start => Map(start),
        AnchorAlias alias => Alias(alias),
        _ => throw Unreadable(PlaceOf(at), "a value is expected here"),
    };

    private LocatedScalar Scalar(Scalar scalar)
    {
        RefuseTag(scalar);
        if (isJson)
            JsonForm.Require(scalar, PlaceOf(scalar));
        var value = LocatedScalar.Of(PlaceOf(scalar), words.Once(scalar.Value), scalar.Style is not ScalarStyle.Plain);
        Remember(scalar.Anchor, value);
        return value;
    }

    private LocatedList List(SequenceStart start)
    {
        Enter(start);
        if (isJson && start.Style is not SequenceStyle.Flow)
            throw Unreadable(PlaceOf(start), "JSON writes a list between `[` and `]`");
        var list = new LocatedList(PlaceOf(start));
        Announce(start.Anchor);
        ParsingEvent at;
        while ((at = Next()) is not SequenceEnd)
            list.Add(Value(at));
        list.Settle(Span(start, at, list.Items.Count == 0 ? null : list.Items[list.Items.Count - 1]));
        Leave(at, start.Anchor, list);
        return list;
    }

    private LocatedMap Map(MappingStart start)
    {
        Enter(start);
        if (isJson && start.Style is not MappingStyle.Flow)
            throw Unreadable(PlaceOf(start), "JSON writes a map between `{` and `}`");
        var map = new LocatedMap(PlaceOf(start));
        LocatedValue? last = null;
        Announce(start.Anchor);
        ParsingEvent at;
        while ((at = Next()) is not MappingEnd)
        {
            if (at is not Scalar key)
                throw Unreadable(PlaceOf(at), "a key is a plain name, not a list, map or alias");
            var name = Scalar(key);
            last = Value(Next());
            if (map.Find(name.Text) is not { } first)
                map.Add(new(name, last));
            else if (!Reading.HasEnough(findings, name.Place))
                findings.Add(DuplicateKey.At(name, first.Key));
            else
                throw new UnreadableException(findings[findings.Count - 1], isSaid: true);
        }
        map.Settle(Span(start, at, last));
        Leave(at, start.Anchor, map);
        return map;
    }

    private LocatedValue Alias(AnchorAlias alias)
    {
        var place = PlaceOf(alias);
        if (isJson)
            throw Unreadable(place, "JSON has no aliases");
        if (!anchors.TryGetValue(alias.Value.Value, out var target))
            throw Unreadable(place, $"no `&{alias.Value.Value}` stands before this alias");
        if (target is null)
            throw Unreadable(place, $"the alias `*{alias.Value.Value}` stands inside what it repeats");
        aliasedValues += target.Size;
        if (aliasedValues > MaxAliasedValues)
            throw Unreadable(place, FormattableString.Invariant($"aliases stand for more than {MaxAliasedValues} values"));
        if (depth + target.Depth > MaxDepth)
            throw TooDeep(place);
        return target;
    }

    private void Enter(NodeEvent start)
    {
        RefuseTag(start);
        openBrackets.Push((int)start.Start.Index);
        if (++depth > MaxDepth)
            throw TooDeep(PlaceOf(start));
    }

    private void Leave(ParsingEvent end, AnchorName anchor, LocatedValue value)
    {
        depth--;
        openBrackets.Pop();
        if (isJson)
            JsonForm.RefuseTrailingComma(source, (int)end.Start.Index);
        Remember(anchor, value);
    }

    private void Announce(AnchorName anchor)
    {
        if (!anchor.IsEmpty)
            anchors[anchor.Value] = null;
    }

    private void Remember(AnchorName anchor, LocatedValue value)
    {
        if (!anchor.IsEmpty)
            anchors[anchor.Value] = value;
    }

    private void RefuseTag(NodeEvent node)
    {
        if (isJson && !node.Anchor.IsEmpty)
            throw Unreadable(PlaceOf(node), "JSON has no anchors");
        if (!node.Tag.IsEmpty && !node.Tag.IsNonSpecific)
            throw Unreadable(PlaceOf(node), $"the tag `{node.Tag}` has no meaning in a manifest");
    }

    private ParsingEvent Next()
    {
        if (!parser.MoveNext() || parser.Current is not { } current)
            throw Unreadable(PlaceFrom(source.Text.Length, 0), "the text ends too early");
        if (current is Comment)
            throw Unreadable(PlaceOf(current), "JSON has no comments; keys that begin with `x-` are free for notes");
        lastEnd = (int)Math.Min(current.End.Index, source.Text.Length);
        return current;
    }

    private void Next<T>()
        where T : ParsingEvent
    {
        if (Next() is not T)
            throw Unreadable(PlaceFrom(lastEnd, 0), "the text cannot be read from here on");
    }

    private Place PlaceOf(ParsingEvent at) => PlaceFrom((int)at.Start.Index, (int)(at.End.Index - at.Start.Index));

    // An empty value behind a tag has no end mark of its own: its place is where it begins.
    private Place PlaceFrom(int start, int length)
    {
        var inside = Math.Min(start, source.Text.Length);
        return new(source, inside, Math.Max(0, Math.Min(length, source.Text.Length - inside)));
    }

    // A block collection's end mark lies at the next token, lines below: its place ends with its last value.
    private Place Span(ParsingEvent start, ParsingEvent end, LocatedValue? last)
    {
        var from = (int)start.Start.Index;
        var close = (int)end.Start.Index;
        // An anchor may stand before the bracket.
        var isFlow = start is MappingStart { Style: MappingStyle.Flow } or SequenceStart { Style: SequenceStyle.Flow } && close < source.Text.Length && source.Text[close] is ']' or '}';
        var to = isFlow ? close + 1 : Math.Max(from, last?.Place.End ?? from);
        return PlaceFrom(from, to - from);
    }

    private static UnreadableException TooDeep(Place place) =>
        Unreadable(place, FormattableString.Invariant($"nesting is more than {MaxDepth} levels deep here"));

    private static UnreadableException Unreadable(Place place, string message) => new(SyntaxError.At(place, message));
}
