using RadioLint.Text;

namespace RadioLint.Manifest;

/// <summary>A value of the file with the place that states it.</summary>
public abstract class LocatedValue(Place place)
{
    public Place Place { get; } = place;

    /// <summary>How many values it holds, itself included; an alias counts what it stands for.</summary>
    public int Size { get; protected set; } = 1;

    /// <summary>How deep it nests: 0 for a scalar.</summary>
    public int Depth { get; protected set; }

    /// <summary>What a person calls this kind of value.</summary>
    public abstract string Kind { get; }

    protected void Contain(LocatedValue child)
    {
        Size += child.Size;
        Depth = Math.Max(Depth, child.Depth + 1);
    }
}

/// <summary>A single text, number or word.</summary>
public sealed class LocatedScalar(Place place, string text, bool isQuoted) : LocatedValue(place)
{
    /// <summary>The value without quotes and escapes.</summary>
    public string Text { get; } = text;

    /// <summary>True when quotes or a block style say that it is text and nothing else.</summary>
    public bool IsQuoted { get; } = isQuoted;

    public override string Kind => "a single value";
}

/// <summary>A list of values.</summary>
public sealed class LocatedList(Place place) : LocatedValue(place)
{
    private readonly List<LocatedValue> items = [];

    public IReadOnlyList<LocatedValue> Items => items;

    public override string Kind => "a list";

    internal void Add(LocatedValue item)
    {
        items.Add(item);
        Contain(item);
    }
}

/// <summary>One key and its value.</summary>
public readonly record struct Entry(LocatedScalar Key, LocatedValue Value);

/// <summary>Keys with values, in the file's order. A key that stands twice is kept once, as first written.</summary>
public sealed class LocatedMap(Place place) : LocatedValue(place)
{
    private const int SmallEnoughToScan = 8;
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
