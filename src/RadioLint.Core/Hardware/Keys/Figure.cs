using System.Collections.Immutable;
using RadioLint.Manifest;

namespace RadioLint.Hardware.Keys;

/// <summary>Keys and maps of data files: figures with their source, and lines of tables that share one.</summary>
internal static class Figure
{
    /// <summary>A figure that every part of the kind has.</summary>
    public static Key<Fact<T>> Always<T>(string name, Shape<T> shape, string summary) => new(name, new FactShape<T>(shape), summary) { IsRequired = true };

    /// <summary>A figure that may be unknown.</summary>
    public static Key<Fact<T>> Sometimes<T>(string name, Shape<T> shape, string summary) => new(name, new FactShape<T>(shape), summary);

    /// <summary>A plain key that must be there.</summary>
    public static Key<T> Plain<T>(string name, Shape<T> shape, string summary) => new(name, shape, summary) { IsRequired = true };

    /// <summary>A list that must be there.</summary>
    public static Key<ImmutableArray<T>> List<T>(string name, Shape<T> item, string summary) => new(name, Listed(item), summary) { IsRequired = true };

    /// <summary>A list without the places of its items.</summary>
    public static Shape<ImmutableArray<T>> Listed<T>(Shape<T> item) =>
        new ListShape<T>(item).As(items => ImmutableArray.CreateRange(items.Select(each => each.Value)));

    /// <summary>A map of named values without their places.</summary>
    public static Shape<ImmutableArray<T>> Named<T, TItem>(string what, Shape<TItem> item, Func<string, TItem, T> build) =>
        new NamedShape<TItem>(what, item, Scalars.Text).As(items => ImmutableArray.CreateRange(items.Select(each => build(each.Name.Text, each.Value.Value))));

    /// <summary>A map whose values share one source: its own keys, then `source`, `where`, `basis` and `note`.</summary>
    public static MapShape<T> Entry<T>(string what, Key[] own, Func<Settings, Origin, T> build)
    {
        var source = Plain("source", Scalars.Text, "document, by its name under `sources`");
        var where = new Key<string>("where", Scalars.Text, "table or section");
        var basis = Plain("basis", Bases, "how it is known");
        var note = new Key<string>("note", Scalars.Text, "remark");
        return new(
            what,
            [.. own, source, where, basis, note, Remark.Key("when", "condition")],
            s => build(s, new(s.The(source), s.Written(where)?.Value, s.The(basis), s.Written(note)?.Value)));
    }

    /// <summary>
    /// A required value. Where it is missing this yields nothing, whatever the type says: the finding that the table adds then
    /// keeps the record from being handed out.
    /// </summary>
    public static T The<T>(this Settings settings, Key<T> key) => settings.Written(key) is { } written ? written.Value : default!;

    /// <summary>A value that may be absent.</summary>
    public static T? Maybe<T>(this Settings settings, Key<T> key)
        where T : class => settings.Written(key)?.Value;

    /// <summary>A list that may be absent.</summary>
    public static ImmutableArray<T> Any<T>(this Settings settings, Key<ImmutableArray<T>> key) =>
        settings.Written(key)?.Value ?? ImmutableArray<T>.Empty;

    private static readonly ScalarShape<string> Bases = Scalars.Words(
        "a basis", ("read", "read"), ("secondary", "secondary"), ("derived", "derived"), ("memory", "memory"), ("assumed", "assumed"));
}
