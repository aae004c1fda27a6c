using System.Globalization;
using System.Text;
using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Manifest;

/// <summary>A value as YAML in flow style or as JSON, on one line.</summary>
internal static class FlowText
{
    // What would end a plain value between brackets (YAML 1.2.2, production 126).
    private static readonly char[] FlowIndicators = [',', '[', ']', '{', '}'];

    /// <summary>A value as YAML spells it; text that does not read as a value is one word in quotes.</summary>
    public static LocatedValue Read(string text)
    {
        var source = new SourceText("value", text);
        return TreeReader.Read(source, new List<Finding>()) ?? LocatedScalar.Of(new(source, 0, text.Length), text, isQuoted: true);
    }

    public static string Of(LocatedValue value, bool isJson) => value switch
    {
        LocatedMap { Entries.Count: > 0 } map => "{ " + string.Join(", ", map.Entries.Select(entry => $"{Key(entry.Key.Text, isJson)}: {Of(entry.Value, isJson)}")) + " }",
        LocatedMap => "{}",
        LocatedList list => "[" + string.Join(", ", list.Items.Select(item => Of(item, isJson))) + "]",
        LocatedScalar scalar => isJson ? Json(scalar) : Yaml(scalar),
        _ => throw new InvalidOperationException(value.Kind),
    };

    public static string Key(string key, bool isJson) => isJson ? JsonText(key) : BlockYaml.Of(LocatedScalar.Of(default, key, isQuoted: false));

    private static string Yaml(LocatedScalar scalar)
    {
        var text = BlockYaml.Of(scalar);
        return text.Length > 0 && text[0] != '"' && text.IndexOfAny(FlowIndicators) >= 0 ? BlockYaml.Quoted(scalar.Text) : text;
    }

    private static string Json(LocatedScalar scalar)
    {
        var isBare = !scalar.IsQuoted && (scalar.Text is "true" or "false" || IsWhole(scalar.Text));
        return isBare ? scalar.Text : JsonText(scalar.Text);
    }

    private static bool IsWhole(string text) =>
        text.Length is > 0 and < 10 && text.All(c => c is >= '0' and <= '9') && (text.Length == 1 || text[0] != '0');

    private static string JsonText(string text)
    {
        var quoted = new StringBuilder("\"");
        foreach (var c in text)
        {
            if (c is '"' or '\\')
                quoted.Append('\\').Append(c);
            else if (c < ' ')
                quoted.Append("\\u").Append(((int)c).ToString("X4", CultureInfo.InvariantCulture));
            else
                quoted.Append(c);
        }
        return quoted.Append('"').ToString();
    }
}
