using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Rules.Hygiene;

namespace RadioLint.Hardware;

/// <summary>
/// Data files name a document in short (`source: D1`) and list it once under `sources`. Messages quote it by its title, so the title
/// takes the short name's place before the tables of keys see it; the place in the file stays that of the short name.
/// </summary>
internal static class SourceTitles
{
    private static readonly Key<string> Title = new("title", Scalars.Text, "the document's title") { IsRequired = true };
    private static readonly Key<string> Revision = new("revision", Scalars.Text, "its revision");
    private static readonly Key<string> Date = new("date", Scalars.Text, "its date; told where it has no revision");

    private static readonly NamedShape<string> Documents = new(
        "documents",
        new MapShape<string>(
            "a document",
            [Title, Revision, Date, Remark.Key("read", "how much of it was read")],
            s => (s.Written(Revision) ?? s.Written(Date)) is { } edition ? $"{s.Written(Title)?.Value}, {edition.Value}" : s.Written(Title)?.Value ?? ""),
        Scalars.Text);

    public static LocatedMap In(LocatedMap file, List<Finding> findings)
    {
        var titles = new Dictionary<string, string>(StringComparer.Ordinal);
        if (file.Find("sources") is not { } sources || !Documents.TryRead(sources.Value, findings, out var documents))
            throw new InvalidOperationException($"{file.Place}: the file lacks the key `sources`");
        foreach (var document in documents)
            titles.Add(document.Name.Text, document.Value.Value);
        return In(file, titles, findings);
    }

    private static LocatedMap In(LocatedMap map, Dictionary<string, string> titles, List<Finding> findings)
    {
        var copy = new LocatedMap(map.Place);
        foreach (var (key, value) in map.Entries)
            copy.Add(new(key, key.Text == "source" && value is LocatedScalar name ? Spelt(name, titles, findings) : In(value, titles, findings)));
        return copy;
    }

    private static LocatedValue In(LocatedValue value, Dictionary<string, string> titles, List<Finding> findings)
    {
        if (value is LocatedMap map)
            return In(map, titles, findings);
        if (value is not LocatedList list)
            return value;
        var copy = new LocatedList(list.Place);
        foreach (var item in list.Items)
            copy.Add(In(item, titles, findings));
        return copy;
    }

    private static LocatedScalar Spelt(LocatedScalar name, Dictionary<string, string> titles, List<Finding> findings)
    {
        if (titles.TryGetValue(name.Text, out var title))
            return new LocatedQuote(name.Place, title);
        findings.Add(WrongType.At(name.Place, $"`{name.Text}`", "the name of a document listed under `sources`"));
        return name;
    }
}
