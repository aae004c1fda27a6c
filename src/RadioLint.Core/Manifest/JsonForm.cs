using RadioLint.Rules.Hygiene;
using RadioLint.Text;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace RadioLint.Manifest;

/// <summary>What JSON forbids and the common parser would let pass in a `.json` file.</summary>
internal static class JsonForm
{
    public static void Require(Scalar scalar, Place place)
    {
        var isPlainWord = scalar.Style is ScalarStyle.Plain && (scalar.Value is "true" or "false" or "null" || IsNumber(scalar.Value));
        if (scalar.Style is not ScalarStyle.DoubleQuoted && !isPlainWord)
            throw new UnreadableException(SyntaxError.At(place, $"JSON wants `{scalar.Value}` between double quotes"));
        if (scalar.Style is ScalarStyle.DoubleQuoted && HasForeignEscape(place.Text))
            throw new UnreadableException(SyntaxError.At(place, "an escape in this text is not one of JSON's"));
    }

    public static void RefuseTrailingComma(SourceText source, int end)
    {
        var at = end - 1;
        while (at >= 0 && source.Text[at] is ' ' or '\t' or '\r' or '\n')
            at--;
        if (at >= 0 && source.Text[at] == ',')
            throw new UnreadableException(SyntaxError.At(new(source, at, 1), "JSON allows no comma before a closing bracket"));
    }

    // RFC 8259 section 6.
    private static bool IsNumber(string text)
    {
        var at = text.StartsWith("-", StringComparison.Ordinal) ? 1 : 0;
        if (at >= text.Length || (text[at] == '0' && at + 1 < text.Length && char.IsDigit(text[at + 1])))
            return false;
        var digits = Digits(ref at);
        if (digits && at < text.Length && text[at] == '.')
        {
            at++;
            digits = Digits(ref at);
        }
        if (digits && at < text.Length && text[at] is 'e' or 'E')
        {
            at++;
            if (at < text.Length && text[at] is '+' or '-')
                at++;
            digits = Digits(ref at);
        }
        return digits && at == text.Length;

        bool Digits(ref int from)
        {
            var start = from;
            while (from < text.Length && text[from] is >= '0' and <= '9')
                from++;
            return from > start;
        }
    }

    // RFC 8259 section 7.
    private static bool HasForeignEscape(string quoted)
    {
        for (var i = 0; i < quoted.Length - 1; i++)
        {
            if (quoted[i] != '\\')
                continue;
            if ("\"\\/bfnrtu".IndexOf(quoted[++i]) < 0)
                return true;
        }
        return false;
    }
}
