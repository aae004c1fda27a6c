using System.Text.Json;
using CsCheck;
using RadioLint.Manifest;
using RadioLint.Tests.Support;
using RadioLint.Text;

namespace RadioLint.Tests.Planning;

/// <summary>The manifests of fixtures, pages and examples with keys taken out and values left open, in several layouts.</summary>
public static class OpenedManifests
{
    private static readonly string[] MayGo =
    [
        "air", "pins", "ce", "csn", "irq", "power", "retry", "delay", "limit", "offset", "jitter", "address", "pipe", "rate", "channel", "crc", "order",
    ];

    /// <summary>Name and text of every manifest that is read, and the folder of what it includes.</summary>
    public static IEnumerable<(string Name, string Text, string Folder)> All() =>
    [
        .. Fixtures.All().Select(file => (file, File.ReadAllText(Path.Combine(Fixtures.Rules, file)), Path.GetDirectoryName(Path.Combine(Fixtures.Rules, file))!)),
        .. Fixtures.OfPages().Select(page => (page.Name, page.Text, Path.Combine(Fixtures.Rules, page.Name[..6]))),
        .. Fixtures.Examples().Select(file => (file, File.ReadAllText(Path.Combine(Fixtures.Root, file)), Path.GetDirectoryName(Path.Combine(Fixtures.Root, file))!)),
    ];

    /// <summary>The same manifest as it may be laid out otherwise.</summary>
    public static IEnumerable<string> Layouts(string text)
    {
        yield return text;
        yield return text.Replace("\r\n", "\n", StringComparison.Ordinal).Replace("\n", "\r\n", StringComparison.Ordinal);
        yield return text.TrimEnd('\n');
        if (Rewriting.Tree("x.radio.yaml", text) is not { } tree)
            yield break;
        yield return BlockYaml.Write(tree);
        var json = Rewriting.ToJson(tree, Rewriting.AsWritten);
        yield return json;
        using var document = JsonDocument.Parse(json);
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream, new() { Indented = true, NewLine = "\n" }))
            document.WriteTo(writer);
        yield return System.Text.Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    /// <summary>Some of its values made `open`, some of its keys taken out.</summary>
    public static string Opened(string text, PCG dice)
    {
        for (var i = dice.Next(6); i > 0; i--)
        {
            if (Rewriting.Tree("x.radio.yaml", text) is not { } tree)
                return text;
            var edits = Removals(text, tree).ToList();
            if (edits.Count == 0)
                return text;
            var edit = edits[(int)dice.Next((uint)edits.Count)];
            text = text[..edit.Place.Start] + edit.NewText + text[edit.Place.End..];
        }
        return text;
    }

    private static IEnumerable<Edit> Removals(string text, LocatedValue value)
    {
        if (value is LocatedList list)
            return list.Items.SelectMany(item => Removals(text, item));
        if (value is not LocatedMap map)
            return [];
        return map.Entries.SelectMany((entry, at) => Of(text, map, at).Concat(Removals(text, entry.Value)));
    }

    private static IEnumerable<Edit> Of(string text, LocatedMap map, int at)
    {
        var (key, value) = map.Entries[at];
        if (!MayGo.Contains(key.Text, StringComparer.Ordinal) || value.Place.Start < key.Place.End || text[value.Place.Start] is '&')
            yield break;
        if (key.Text is "channel" or "rate" or "delay" && value is LocatedScalar { IsQuoted: var isQuoted } && key.Place.Start > 0)
            yield return new(value.Place, isQuoted || text[key.Place.Start] == '"' ? "\"open\"" : "open");
        if (key.Text == "order")
        {
            if (map.Find("fields") is not null && text[value.Place.Start] == '[')
                yield return new(value.Place, text[key.Place.Start] == '"' ? "\"open\"" : "open");
            yield break;
        }
        // The key before it ends where this one's comma stands; a line of its own goes whole.
        if (text[map.Place.Start] == '{' && at > 0 && map.Entries[at - 1].Value.Place.Start > map.Entries[at - 1].Key.Place.Start)
            yield return new(new(value.Place.Source, map.Entries[at - 1].Value.Place.End, value.Place.End - map.Entries[at - 1].Value.Place.End), "");
        var start = text.LastIndexOf('\n', key.Place.Start) + 1;
        var end = text.IndexOf('\n', value.Place.End);
        if (text[map.Place.Start] != '{' && end > 0 && map.Entries.Count > 1 && text[start..key.Place.Start].Trim().Length == 0)
            yield return new(new(value.Place.Source, start, end + 1 - start), "");
    }
}
