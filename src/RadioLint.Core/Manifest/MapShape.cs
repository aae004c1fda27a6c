using System.Diagnostics.CodeAnalysis;
using RadioLint.Findings;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;

namespace RadioLint.Manifest;

/// <summary>One key of a map: its name, what it may hold, what holds when it is absent.</summary>
public abstract class Key(string name, string summary)
{
    public string Name { get; } = name;

    /// <summary>What it says, for the reference and for editors.</summary>
    public string Summary { get; } = summary;

    /// <summary>The documented default as the manifest would write it; null when an absent value is unknown.</summary>
    public string? Default { get; init; }

    public bool IsRequired { get; init; }

    /// <summary>The help where its value is of another kind: for keys that people commonly take for something else.</summary>
    public string? Advice { get; init; }

    /// <summary>Its position in the map's table; set once, when the table is made.</summary>
    internal int Index { get; set; }

    public abstract Shape Shape { get; }

    internal abstract object? Read(LocatedValue value, List<Finding> findings);
}

/// <summary>A key that holds a <typeparamref name="T"/>.</summary>
public sealed class Key<T>(string name, Shape<T> shape, string summary) : Key(name, summary)
{
    private Stated<T>? byDefault;

    public override Shape Shape => shape;

    internal override object? Read(LocatedValue value, List<Finding> findings)
    {
        var before = findings.Count;
        if (shape.TryRead(value, findings, out var result))
            return new Stated<T>(result, value.Place);
        // Only a finding about the whole value: what is wrong inside it has its own help.
        if (Advice is not null && findings.Count == before + 1 && findings[before] is { IsTelling: false } fault && fault.Place == value.Place)
            findings[before] = fault with { Help = Advice };
        return null;
    }

    /// <summary>The default at a place, or null when there is none.</summary>
    internal Stated<T>? DefaultAt(Place place)
    {
        if (Default is null)
            return null;
        byDefault ??= ReadDefault(Default);
        return byDefault with { Place = place };
    }

    private Stated<T> ReadDefault(string text)
    {
        var findings = new List<Finding>();
        var source = new SourceText("default", text);
        var value = TreeReader.Read(source, findings);
        if (value is null || Read(value, findings) is not Stated<T> read)
            throw new InvalidOperationException($"the default of {Name} does not read: {findings[0].Message}");
        return read with { IsDefault = true };
    }
}

/// <summary>A map whose keys are a table.</summary>
public interface IMapShape
{
    /// <summary>What the map is, for messages: "a node".</summary>
    string What { get; }

    IReadOnlyList<Key> Keys { get; }
}

/// <summary>The values of one map by key, each with its place.</summary>
public sealed class Settings
{
    private static readonly object Unread = new();

    // No more than this: a large file has many maps, and must not keep its tree for them.
    private readonly IReadOnlyDictionary<string, Key> keys;
    private readonly object?[] values;

    internal Settings(Place place, IReadOnlyDictionary<string, Key> keys)
    {
        Place = place;
        this.keys = keys;
        values = new object?[keys.Count];
    }

    public Place Place { get; }

    /// <summary>True when the key is written, even if its value did not read.</summary>
    public bool Has(Key key) => values[key.Index] is not null;

    /// <summary>True when a key of this name is written, also when a slip of the pen stands in its place.</summary>
    public bool Writes(string key) => keys.TryGetValue(key, out var known) && Has(known);

    /// <summary>What is written; null when absent or unreadable.</summary>
    public Stated<T>? Written<T>(Key<T> key) => values[key.Index] as Stated<T>;

    /// <summary>What is written, else the default; null when there is neither, or when what is written did not read.</summary>
    public Stated<T>? Get<T>(Key<T> key) => Has(key) ? Written(key) : key.DefaultAt(Place);

    internal void Set(Key key, object? value) => values[key.Index] = value ?? Unread;
}

/// <summary>A map whose keys are a table, read into a <typeparamref name="T"/>.</summary>
public sealed class MapShape<T> : Shape<T>, IMapShape
{
    private readonly Key[] keys;
    private readonly Dictionary<string, Key> byName = new(StringComparer.Ordinal);
    private readonly Func<Settings, T> build;

    public MapShape(string what, Key[] keys, Func<Settings, T> build)
    {
        What = what;
        this.keys = keys;
        this.build = build;
        for (var i = 0; i < keys.Length; i++)
        {
            keys[i].Index = i;
            byName.Add(keys[i].Name, keys[i]);
        }
    }

    public string What { get; }

    public IReadOnlyList<Key> Keys => keys;

    public override string Expected => $"{What} such as `{{ {Example().Name}: ... }}`";

    public override SchemaForm Form => new SchemaForm.Map(this);

    /// <summary>What stands for a map that did not read: each of its keys is written, and none readable.</summary>
    internal Settings Unreadable(Place place)
    {
        var settings = new Settings(place, byName);
        foreach (var key in keys)
            settings.Set(key, null);
        return settings;
    }

    public override bool TryRead(LocatedValue value, List<Finding> findings, [MaybeNullWhen(false)] out T result)
    {
        result = default;
        if (value is not LocatedMap map)
        {
            findings.Add(WrongType.At(value.Place, Found(value), Expected));
            return false;
        }
        var settings = new Settings(map.Place, byName);
        foreach (var entry in map.Entries)
        {
            if (Reading.HasEnough(findings, entry.Key.Place))
                break;
            if (byName.TryGetValue(entry.Key.Text, out var key))
                settings.Set(key, IsEmpty(entry, key, findings) ? null : key.Read(entry.Value, findings));
            else if (!entry.Key.Text.StartsWith("x-", StringComparison.Ordinal))
                Misspelt(entry.Key, map, settings, findings);
        }
        foreach (var key in keys)
        {
            if (key.IsRequired && !settings.Has(key) && findings.Count < Reading.MostFaults)
                findings.Add(WrongType.Lacks(map.Place, What, key.Name, key.Shape.Expected));
        }
        result = build(settings);
        return true;
    }

    // The key that was meant counts as written and unread: that it is missing is no second fault.
    private void Misspelt(LocatedScalar name, LocatedMap map, Settings settings, List<Finding> findings)
    {
        var meant = Nearest.To(name.Text, keys.Select(known => known.Name));
        findings.Add(UnknownKey.At(name, What, keys.Select(known => known.Name), meant));
        if (meant is not null && map.Find(meant) is null)
            settings.Set(byName[meant], null);
    }

    private Key Example() => Array.Find(keys, key => key.IsRequired) ?? keys[0];

    private static bool IsEmpty(Entry entry, Key key, List<Finding> findings)
    {
        if (entry.Value is not LocatedScalar { IsQuoted: false, Text: "" or "~" or "null" })
            return false;
        findings.Add(WrongType.Empty(entry.Key.Place, key.Name, key.Shape.Expected));
        return true;
    }

    private static string Found(LocatedValue value) => value is LocatedScalar scalar ? $"`{scalar.Text}`" : value.Kind;
}
