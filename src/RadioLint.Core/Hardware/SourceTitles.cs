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

    public static void SpellOut(LocatedMap file, List<Finding> findings)
    {
        var titles = new Dictionary<string, string>(StringComparer.Ordinal);
        if (file.Find("sources") is not { } sources || !Documents.TryRead(sources.Value, findings, out var documents))
            throw new InvalidOperationException($"{file.Place}: the file lacks the key `sources`");
        foreach (var document in documents)
            titles.Add(document.Name.Text, document.Value.Value);
        SpellOut(file, titles, findings);
    }

    private static void SpellOut(LocatedValue value, Dictionary<string, string> titles, List<Finding> findings)
    {
        if (value is LocatedList list)
        {
            foreach (var item in list.Items)
                SpellOut(item, titles, findings);
        }
        if (value is not LocatedMap map)
            return;
        for (var i = 0; i < map.Entries.Count; i++)
        {
            var (key, below) = map.Entries[i];
            if (key.Text == "source" && below is LocatedScalar name)
                map.Replace(i, Spelt(name, titles, findings));
            else
                SpellOut(below, titles, findings);
        }
    }

    private static LocatedScalar Spelt(LocatedScalar name, Dictionary<string, string> titles, List<Finding> findings)
    {
        if (titles.TryGetValue(name.Text, out var title))
            return new LocatedQuote(name.Place, title);
        findings.Add(WrongType.At(name.Place, $"`{name.Text}`", "the name of a document listed under `sources`"));
        return name;
    }
}
