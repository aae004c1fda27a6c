using RadioLint.Text;

namespace RadioLint.Manifest;

/// <summary>A value of the file with the place that states it.</summary>
public abstract class LocatedValue(Place place)
{
    public Place Place { get; internal set; } = place;

    /// <summary>How many values it holds, itself included; an alias counts what it stands for.</summary>
    public virtual int Size => 1;

    /// <summary>How deep it nests: 0 for a scalar.</summary>
    public virtual int Depth => 0;

    /// <summary>What a person calls this kind of value.</summary>
    public abstract string Kind { get; }
}

/// <summary>A value that holds others. A scalar carries no counts: there are many of them.</summary>
public abstract class LocatedContainer(Place place) : LocatedValue(place)
{
    private int size = 1;
    private int depth;

    public override int Size => size;

    public override int Depth => depth;

    private protected void Contain(LocatedValue child)
    {
        size += child.Size;
        depth = Math.Max(depth, child.Depth + 1);
    }
}

/// <summary>A single text, number or word.</summary>
public class LocatedScalar(Place place, string text) : LocatedValue(place)
{
    /// <summary>The value without quotes and escapes.</summary>
    public string Text { get; } = text;

    /// <summary>True when quotes or a block style say that it is text and nothing else.</summary>
    public virtual bool IsQuoted => false;

    public override string Kind => "a single value";

    internal static LocatedScalar Of(Place place, string text, bool isQuoted) => isQuoted ? new LocatedQuote(place, text) : new LocatedScalar(place, text);
}

/// <summary>A text in quotes or in a block style. No flag says so: it would make each of the many scalars of a large file larger by a fifth.</summary>
public sealed class LocatedQuote(Place place, string text) : LocatedScalar(place, text)
{
    public override bool IsQuoted => true;
}

/// <summary>A list of values.</summary>
public sealed class LocatedList(Place place) : LocatedContainer(place)
{
    private readonly List<LocatedValue> items = [];

    public IReadOnlyList<LocatedValue> Items => items;

    public override string Kind => "a list";

    /// <summary>Adds a value whose own place and content are settled.</summary>
    internal void Add(LocatedValue item)
    {
        items.Add(item);
        Contain(item);
    }

    /// <summary>Says where it stands, once all is added; frees what its growth has left over.</summary>
    internal void Settle(Place place)
    {
        Place = place;
        items.TrimExcess();
    }
}

/// <summary>One key and its value.</summary>
public readonly record struct Entry(LocatedScalar Key, LocatedValue Value);

/// <summary>Keys with values, in the file's order. A key that stands twice is kept once, as first written.</summary>
public sealed class LocatedMap(Place place) : LocatedContainer(place)
{
    private const int SmallEnoughToScan = 24;
    private readonly List<Entry> entries = [];
    private Dictionary<string, int>? index;

    public IReadOnlyList<Entry> Entries => entries;

    public override string Kind => "a map";

    /// <summary>The entry of a key, or null.</summary>
    public Entry? Find(string key)
    {
        if (index is not null)
            return index.TryGetValue(key, out var at) ? entries[at] : null;
        foreach (var entry in entries)
        {
            if (string.Equals(entry.Key.Text, key, StringComparison.Ordinal))
                return entry;
        }
        return null;
    }

    /// <summary>Says where it stands, once all is added; frees what its growth has left over.</summary>
    internal void Settle(Place place)
    {
        Place = place;
        entries.TrimExcess();
    }

    /// <summary>Puts another value in the place of one.</summary>
    internal void Replace(int at, LocatedValue value) => entries[at] = entries[at] with { Value = value };

    internal void Add(Entry entry)
    {
        index?.Add(entry.Key.Text, entries.Count);
        entries.Add(entry);
        Contain(entry.Value);
        if (index is null && entries.Count > SmallEnoughToScan)
        {
            index = new(StringComparer.Ordinal);
            for (var i = 0; i < entries.Count; i++)
                index.Add(entries[i].Key.Text, i);
        }
    }
}
