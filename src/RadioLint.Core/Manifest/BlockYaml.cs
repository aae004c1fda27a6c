using System.Globalization;
using System.Text;
using RadioLint.Rules.Hygiene;
using RadioLint.Units;

namespace RadioLint.Manifest;

/// <summary>A tree as YAML in block style: two blanks a level, one key a line, quotes only where they change what is read.</summary>
internal static class BlockYaml
{
    private const int Step = 2;

    // What may not begin a plain value, unless a `-`, `?` or `:` is followed by a character (YAML 1.2.2, production 123).
    private const string Indicators = ",[]{}#&*!|>'\"%@`";

    public static string Write(LocatedValue root)
    {
        var text = new StringBuilder();
        switch (root)
        {
            case LocatedMap { Entries.Count: > 0 } map:
                WriteMap(text, map, 0);
                break;
            case LocatedList { Items.Count: > 0 } list:
                WriteList(text, list, 0);
                break;
            default:
                text.Append(Short(root)).Append('\n');
                break;
        }
        return text.ToString();
    }

    // The first line is begun already, by the blanks of its level or by `- `.
    private static void WriteMap(StringBuilder text, LocatedMap map, int level)
    {
        for (var i = 0; i < map.Entries.Count; i++)
        {
            if (i > 0)
                text.Append(' ', level);
            var (key, value) = map.Entries[i];
            text.Append(Scalar(key)).Append(':');
            if (value is LocatedMap { Entries.Count: > 0 } or LocatedList { Items.Count: > 0 })
            {
                text.Append('\n').Append(' ', level + Step);
                WriteBlock(text, value, level + Step);
            }
            else
            {
                var shown = Short(value);
                text.Append(shown.Length == 0 ? "" : " ").Append(shown).Append('\n');
            }
        }
    }

    private static void WriteList(StringBuilder text, LocatedList list, int level)
    {
        for (var i = 0; i < list.Items.Count; i++)
        {
            if (i > 0)
                text.Append(' ', level);
            text.Append("- ");
            WriteBlock(text, list.Items[i], level + Step);
        }
    }

    private static void WriteBlock(StringBuilder text, LocatedValue value, int level)
    {
        switch (value)
        {
            case LocatedMap { Entries.Count: > 0 } map:
                WriteMap(text, map, level);
                break;
            case LocatedList { Items.Count: > 0 } list:
                WriteList(text, list, level);
                break;
            default:
                text.Append(Short(value)).Append('\n');
                break;
        }
    }

    private static string Short(LocatedValue value) => value switch
    {
        LocatedScalar scalar => Scalar(scalar),
        LocatedMap => "{}",
        _ => "[]",
    };

    /// <summary>A single value outside brackets, in quotes only where they change what is read.</summary>
    public static string Of(LocatedScalar scalar) => Scalar(scalar);

    private static string Scalar(LocatedScalar scalar)
    {
        if (!scalar.IsQuoted)
            return scalar.Text.Length == 0 || CanBePlain(scalar.Text) ? scalar.Text : Quoted(scalar.Text);
        return CanBePlain(scalar.Text) && !ReadsOtherwise(scalar) ? scalar.Text : Quoted(scalar.Text);
    }

    private static bool CanBePlain(string text)
    {
        if (text.Length == 0 || text[0] == ' ' || text[text.Length - 1] is ' ' or ':' || Indicators.IndexOf(text[0]) >= 0)
            return false;
        if (text[0] is '-' or '?' or ':' && (text.Length == 1 || text[1] == ' '))
            return false;
        if (text.StartsWith("---", StringComparison.Ordinal) || text.StartsWith("...", StringComparison.Ordinal))
            return false;
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] < ' ' || (text[i] == ':' && text[i + 1] == ' ') || (text[i] == '#' && text[i - 1] == ' '))
                return false;
        }
        return true;
    }

    // Without its quotes it would be a number, a truth or nothing to some reader.
    private static bool ReadsOtherwise(LocatedScalar scalar)
    {
        var plain = new LocatedScalar(scalar.Place, scalar.Text);
        return AmbiguousScalar.IsTruth(plain) || AmbiguousScalar.IsNumber(plain)
            || scalar.Text.ToLowerInvariant() is "true" or "false" or "null" or "~" || LooksLikeNumber(scalar.Text);
    }

    private static bool LooksLikeNumber(string text) =>
        text[0] is '.' or '+' || text.StartsWith("0x", StringComparison.Ordinal) || Quantity.TryNumber(text, out _)
        || double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out _);

    public static string Quoted(string text)
    {
        var quoted = new StringBuilder("\"");
        foreach (var c in text)
        {
            if (c is '"' or '\\')
                quoted.Append('\\').Append(c);
            else if (c < ' ')
                quoted.Append("\\x").Append(((int)c).ToString("X2", CultureInfo.InvariantCulture));
            else
                quoted.Append(c);
        }
        return quoted.Append('"').ToString();
    }
}
