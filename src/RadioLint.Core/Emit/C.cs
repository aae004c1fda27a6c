using System.Buffers;
using System.Globalization;
using System.Numerics;
using System.Text;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Emit;

/// <summary>Text as C and C++ take it: what comes from a manifest cannot leave the comment, literal or identifier that it lands in.</summary>
public static class C
{
    // Harmless in a comment wherever they stand; nearly every text is made of these alone.
    private static readonly SearchValues<char> Plain = SearchValues.Create(" ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_-+.,:;=()'");

    /// <summary>
    /// Printable ASCII without anything that ends or nests a comment, splices lines or starts a trigraph. What is left out shows as `?`.
    /// </summary>
    public static string InComment(string text)
    {
        if (!text.AsSpan().ContainsAnyExcept(Plain))
            return text;
        var safe = new StringBuilder(text.Length);
        foreach (var c in text)
        {
            var shown = c is >= ' ' and <= '~' and not '\\' ? c : '?';
            // `*/`, `/*`, `//` and `??` are broken by a blank: a template may use either kind of comment.
            if (safe.Length > 0 && (safe[^1], shown) is ('*', '/') or ('/', '*') or ('/', '/') or ('?', '?'))
                safe.Append(' ');
            safe.Append(shown);
        }
        // Beside the comment's own slashes and stars, or a `?` of the template.
        if (safe.Length > 0 && safe[0] is '*' or '/' or '?' or '!' or '<')
            safe.Insert(0, ' ');
        if (safe.Length > 0 && safe[^1] is '*' or '/' or '?')
            safe.Append(' ');
        return safe.ToString();
    }

    /// <summary>A string literal with its quotes. Bytes of UTF-8 that are not printable ASCII become octal escapes, which end after three digits.</summary>
    public static string Quoted(string text)
    {
        var literal = new StringBuilder("\"");
        foreach (var one in Encoding.UTF8.GetBytes(text))
        {
            if (one is < 0x20 or > 0x7E)
                literal.Append('\\').Append(Convert.ToString(one, 8).PadLeft(3, '0'));
            else if (one is (byte)'"' or (byte)'\\' or (byte)'?')
                literal.Append('\\').Append((char)one);
            else
                literal.Append((char)one);
        }
        return literal.Append('"').ToString();
    }

    /// <summary>A name as part of an identifier: letters, digits and single underscores.</summary>
    public static string Identifier(string name)
    {
        var identifier = new StringBuilder(name.Length);
        foreach (var c in Names.Identifier(name))
        {
            if (char.IsAsciiLetterOrDigit(c))
                identifier.Append(c);
            else if (identifier.Length > 0 && identifier[^1] != '_')
                identifier.Append('_');
        }
        if (identifier.Length == 0 || char.IsAsciiDigit(identifier[0]))
            identifier.Insert(0, 'n');
        return identifier.ToString().TrimEnd('_');
    }

    /// <summary>A name that stands alone, as a member does: words of the language get an underscore.</summary>
    public static string Member(string name)
    {
        var identifier = Identifier(name);
        return Names.ReservedIn(identifier.Replace('_', '-')) is null ? identifier : identifier + "_";
    }

    /// <summary>The same identifier in capitals, for macros.</summary>
    public static string Upper(string identifier) => identifier.ToUpperInvariant();

    /// <summary>An unsigned literal whose type holds it where int has 16 bits.</summary>
    public static string Unsigned(ulong value) =>
        value.ToString(CultureInfo.InvariantCulture) + (value <= ushort.MaxValue ? "u" : value <= uint.MaxValue ? "uL" : "uLL");

    /// <summary>A signed literal likewise; negative ones in brackets, the least of each type as a sum, because a literal has no sign.</summary>
    public static string Signed(long value) => value switch
    {
        short.MinValue => "(-32767 - 1)",
        int.MinValue => "(-2147483647L - 1)",
        long.MinValue => "(-9223372036854775807LL - 1)",
        < 0 => $"({Digits(value)})",
        _ => Digits(value),
    };

    /// <summary>A field's count, of the signedness of its type.</summary>
    public static string Count(Field field, BigInteger count) => field.IsSigned ? Signed((long)count) : Unsigned((ulong)count);

    /// <summary>The shortest decimal text that gives the same binary32 number.</summary>
    public static string Float(float value)
    {
        var text = value.ToString("R", CultureInfo.InvariantCulture);
        if (!text.Contains('.') && !text.Contains('E'))
            text += ".0";
        return value < 0 || (value == 0 && float.IsNegative(value)) ? $"({text}f)" : text + "f";
    }

    /// <summary>One byte: `0x4Au`.</summary>
    public static string Byte(byte value) => "0x" + value.ToString("X2", CultureInfo.InvariantCulture) + "u";

    /// <summary>So many ones from the least significant bit on.</summary>
    public static string Mask(int width)
    {
        var ones = width >= 32 ? uint.MaxValue : (1u << width) - 1;
        return width switch
        {
            <= 8 => "0x" + ones.ToString("X2", CultureInfo.InvariantCulture) + "u",
            <= 16 => "0x" + ones.ToString("X4", CultureInfo.InvariantCulture) + "u",
            _ => "0x" + ones.ToString("X8", CultureInfo.InvariantCulture) + "uL",
        };
    }

    /// <summary>The smallest unsigned type of at least so many bits, 32 at most.</summary>
    public static string WidthType(int bits) => bits <= 8 ? "uint8_t" : bits <= 16 ? "uint16_t" : "uint32_t";

    /// <summary>Bytes as the inside of an initialiser.</summary>
    public static string Bytes(IEnumerable<byte> bytes) => string.Join(", ", bytes.Select(Byte));

    private static string Digits(long value) =>
        value.ToString(CultureInfo.InvariantCulture)
        + (value is >= -short.MaxValue and <= short.MaxValue ? "" : value is >= -int.MaxValue and <= int.MaxValue ? "L" : "LL");
}
