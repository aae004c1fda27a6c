using System.Globalization;
using System.Numerics;
using System.Text;
using Microsoft.CodeAnalysis.CSharp;

namespace RadioLint.Analyzers.Generation;

/// <summary>Text as C# takes it: what comes from a manifest cannot leave the comment, literal or identifier that it lands in.</summary>
internal static class CSharp
{
    /// <summary>`hive-1` as `Hive1`. Whatever is no ASCII letter or digit divides words and goes.</summary>
    public static string Pascal(string name)
    {
        var identifier = new StringBuilder();
        var startsWord = true;
        foreach (var c in name)
        {
            if (c is not ((>= 'a' and <= 'z') or (>= 'A' and <= 'Z') or (>= '0' and <= '9')))
            {
                startsWord = true;
                continue;
            }
            identifier.Append(startsWord && c is >= 'a' and <= 'z' ? (char)(c - 'a' + 'A') : c);
            startsWord = false;
        }
        if (identifier.Length == 0)
            return "Unnamed";
        return identifier[0] is >= '0' and <= '9' ? $"N{identifier}" : identifier.ToString();
    }

    /// <summary>A parameter's name for a property: `weightRaw`.</summary>
    public static string Parameter(string property)
    {
        var name = char.ToLowerInvariant(property[0]) + property.Substring(1);
        return SyntaxFacts.GetKeywordKind(name) is SyntaxKind.None ? name : "@" + name;
    }

    /// <summary>Dotted identifiers, whatever a project calls itself.</summary>
    public static string Namespace(string name)
    {
        var parts = name.Split('.').Where(part => part.Length > 0).Select(NamespacePart).ToList();
        return parts.Count == 0 ? "Unnamed" : string.Join(".", parts);
    }

    /// <summary>A string literal with its quotes, in printable ASCII.</summary>
    public static string Quoted(string text)
    {
        var literal = new StringBuilder("\"");
        foreach (var c in text)
        {
            if (c is '"' or '\\')
                literal.Append('\\').Append(c);
            else if (c is < ' ' or > '~')
                literal.Append("\\u").Append(((int)c).ToString("X4", CultureInfo.InvariantCulture));
            else
                literal.Append(c);
        }
        return literal.Append('"').ToString();
    }

    /// <summary>One line of printable text. What is no letter of the Latin alphabets shows as `?`, above all what ends or turns a line.</summary>
    public static string InComment(string text)
    {
        // Nearly all text is plain; only other text is copied.
        if (text.All(IsPlain))
            return text;
        var safe = new StringBuilder(text.Length);
        foreach (var c in text)
            safe.Append(IsPlain(c) ? c : '?');
        return safe.ToString();

        static bool IsPlain(char c) => c is (>= ' ' and <= '~') or (>= '\u00A1' and <= '\u024F' and not '\u00AD');
    }

    /// <summary>The same inside an XML docs comment.</summary>
    public static string Doc(string text) => InComment(text).Replace("&", "&amp;").Replace("<", "&lt;").Replace(">", "&gt;");

    public static string Number(long value) => value.ToString(CultureInfo.InvariantCulture);

    /// <summary>A count as a literal of its integer type.</summary>
    public static string Count(string type, BigInteger count) =>
        count.ToString(CultureInfo.InvariantCulture) + type switch { "uint" => "U", "long" => "L", "ulong" => "UL", _ => "" };

    /// <summary>A whole number as a double.</summary>
    public static string Double(BigInteger value) => value.ToString(CultureInfo.InvariantCulture) + ".0";

    /// <summary>The shortest decimal text that gives the same binary32 number, the same in every runtime.</summary>
    public static string Float(float value)
    {
        for (var digits = 1; ; digits++)
        {
            var text = ((double)value).ToString("G" + Number(digits), CultureInfo.InvariantCulture);
            if (digits == 9 || (float)double.Parse(text, CultureInfo.InvariantCulture) == value)
                return text + "F";
        }
    }

    public static string Byte(byte value) => "0x" + value.ToString("X2", CultureInfo.InvariantCulture);

    public static string Bytes(IEnumerable<byte> bytes) => string.Join(", ", bytes.Select(Byte));

    public static string Flag(bool value) => value ? "true" : "false";

    private static string NamespacePart(string part)
    {
        var identifier = new StringBuilder();
        foreach (var c in part)
            identifier.Append(char.IsLetterOrDigit(c) && SyntaxFacts.IsIdentifierPartCharacter(c) ? c : '_');
        if (!SyntaxFacts.IsIdentifierStartCharacter(identifier[0]))
            identifier.Insert(0, '_');
        var name = identifier.ToString();
        // A namespace of that name would take the discard away from all code in it.
        return name == "_" ? "Unnamed" : SyntaxFacts.GetKeywordKind(name) is SyntaxKind.None ? name : "@" + name;
    }
}
