using System.Text;
using System.Text.Json;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Text;

namespace RadioLint.Tests.Support;

/// <summary>The same manifest written otherwise: as JSON, its maps in another order.</summary>
public static class Rewriting
{
    /// <summary>The order that the file has.</summary>
    public static IEnumerable<Entry> AsWritten(IEnumerable<Entry> entries) => entries;

    /// <summary>The tree of a text, or null when it does not parse.</summary>
    public static LocatedValue? Tree(string name, string text) =>
        TreeReader.Read(new SourceText(name, text), []) is { } tree ? tree : null;

    /// <summary>As JSON; <paramref name="arrange"/> orders the entries of each map whose order has no meaning.</summary>
    public static string ToJson(LocatedValue root, Func<IEnumerable<Entry>, IEnumerable<Entry>> arrange)
    {
        var text = new StringBuilder();
        Write(text, root, "", arrange);
        return text.Append('\n').ToString();
    }

    /// <summary>IDs and messages of all findings, sorted: what must not depend on how the manifest is written.</summary>
    public static IReadOnlyList<string> Said(IEnumerable<Finding> findings) =>
        [.. findings.Select(finding => $"{finding.Severity} {finding.Rule.Id} {finding.Message}").Order(StringComparer.Ordinal)];

    private static void Write(StringBuilder text, LocatedValue value, string path, Func<IEnumerable<Entry>, IEnumerable<Entry>> arrange)
    {
        switch (value)
        {
            case LocatedMap map:
                var comma = "";
                text.Append('{');
                // Fields and bits lie in a packet in the order in which they are written.
                foreach (var (key, inner) in path.StartsWith("/payloads/", StringComparison.Ordinal) ? map.Entries : arrange(map.Entries))
                {
                    text.Append(comma).Append(Quoted(key.Text)).Append(": ");
                    Write(text, inner, $"{path}/{key.Text}", arrange);
                    comma = ", ";
                }
                text.Append('}');
                break;
            case LocatedList list:
                var separator = "";
                text.Append('[');
                foreach (var item in list.Items)
                {
                    text.Append(separator);
                    Write(text, item, path + "/-", arrange);
                    separator = ", ";
                }
                text.Append(']');
                break;
            case LocatedScalar { IsQuoted: false, Text: "" or "~" or "null" }:
                text.Append("null");
                break;
            case LocatedScalar scalar:
                text.Append(!scalar.IsQuoted && IsJsonWord(scalar.Text) ? scalar.Text : Quoted(scalar.Text));
                break;
        }
    }

    private static bool IsJsonWord(string text)
    {
        try
        {
            using var word = JsonDocument.Parse(text);
            return word.RootElement.ValueKind is JsonValueKind.Number or JsonValueKind.True or JsonValueKind.False;
        }
        catch (JsonException)
        {
            return false;
        }
    }

    private static string Quoted(string text) => JsonSerializer.Serialize(text);
}
