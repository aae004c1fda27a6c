using System.Collections.Immutable;
using System.Text;
using RadioLint.Text;

namespace RadioLint.Readback;

/// <summary>A value of a listing: one byte, or an address as one number.</summary>
/// <param name="HasPrefix">True when it begins with `0x`.</param>
internal sealed record PlainValue(ImmutableArray<byte> Bytes, bool HasPrefix, Place Place);

/// <summary>Values that stand with the register that they belong to.</summary>
/// <param name="IsNamed">True for a register's name, false for its address.</param>
internal sealed record PlainPair(byte Address, bool IsNamed, IReadOnlyList<PlainValue> Values);

/// <summary>
/// A line of a listing of any program, by what it holds alone: names of registers, hex values, and the signs between them. Hex values are one or two
/// digits, `0x` with any, or the 6 to 10 digits of an address. C comments and declarations, and a time before the rest, are passed over.
/// </summary>
internal sealed class PlainLine
{
    private readonly List<Word> words = [];

    private PlainLine()
    {
    }

    /// <summary>Registers with their values.</summary>
    public List<PlainPair> Pairs { get; } = [];

    /// <summary>Values without a register; only on a line that holds nothing else.</summary>
    public List<PlainValue> Bare { get; } = [];

    public bool IsBlank => words.Count == 0;

    public static PlainLine Read(SourceText source)
    {
        var line = new PlainLine();
        line.Split(source, Blanked(source.Text));
        if (line.words.Exists(word => word.Register is not null))
            line.TakeNamed();
        else if (line.words.TrueForAll(word => word.Value is not null))
            line.TakeValues();
        return line;
    }

    // Comments, a declaration before its brace, and a time, as blanks, so that columns stay.
    private static string Blanked(string text)
    {
        var kept = new StringBuilder(text);
        void Blank(int from, int to)
        {
            for (var i = from; i < to; i++)
                kept[i] = ' ';
        }

        for (var at = text.IndexOf("/*", StringComparison.Ordinal); at >= 0;)
        {
            var end = text.IndexOf("*/", at + 2, StringComparison.Ordinal) is >= 0 and var close ? close + 2 : text.Length;
            Blank(at, end);
            at = end < text.Length ? text.IndexOf("/*", end, StringComparison.Ordinal) : -1;
        }
        if (text.IndexOf("//", StringComparison.Ordinal) is >= 0 and var comment)
            Blank(comment, text.Length);
        if (text.IndexOf('{') is >= 0 and var brace && text.LastIndexOf('=', brace) >= 0)
            Blank(0, brace);
        var start = text.Length - text.TrimStart().Length;
        if (start < text.Length && text[start] == '[' && text.IndexOf(']', start) is > 0 and var bracket)
            Blank(0, bracket + 1);
        else if (TimeEnd(text, start) is { } time)
            Blank(0, time);
        return kept.ToString();
    }

    // `12:30:01.250` and an arrow, as terminals put before what comes in.
    private static int? TimeEnd(string text, int start)
    {
        var at = start;
        var colons = 0;
        for (; at < text.Length && text[at] is (>= '0' and <= '9') or ':' or '.' or ','; at++)
            colons += text[at] == ':' ? 1 : 0;
        if (colons != 2 || (at < text.Length && text[at] is not (' ' or '\t')))
            return null;
        var arrow = text.IndexOf("->", at, StringComparison.Ordinal);
        return arrow >= 0 && text.Substring(at, arrow - at).Trim().Length == 0 ? arrow + 2 : at;
    }

    private void Split(SourceText source, string text)
    {
        var depth = 0;
        var group = 0;
        for (var at = 0; at < text.Length;)
        {
            if (IsOfWord(text[at]))
            {
                var end = at;
                while (end < text.Length && IsOfWord(text[end]))
                    end++;
                // `RX_PW_P0-5` names its first register.
                var isGlued = at > 0 && text[at - 1] == '-' && at > 1 && IsOfWord(text[at - 2]);
                if (!isGlued)
                    words.Add(new(RegisterMap.Find(text.Substring(at, end - at))?.Address, ValueOf(source, text, at, end), group));
                at = end;
                continue;
            }
            var isSeparator = text[at] is '=' or ':' || (text[at] == '>' && at > 0 && text[at - 1] == '-');
            if (isSeparator && words.Count > 0)
                words[words.Count - 1].IsFollowed = true;
            if (text[at] == '{')
                group = ++depth;
            else if (text[at] == '}')
                group = -1;
            at++;
        }
        // A group that does not close is the beginning of a longer list.
        if (group != -1)
            words.ForEach(word => word.Group = 0);
    }

    private static bool IsOfWord(char c) => c == '_' || c is (>= '0' and <= '9') or (>= 'A' and <= 'Z') or (>= 'a' and <= 'z') || c > '~';

    private static PlainValue? ValueOf(SourceText source, string text, int start, int end)
    {
        var word = text.Substring(start, end - start);
        var hasPrefix = word.StartsWith("0x", StringComparison.OrdinalIgnoreCase);
        var digits = hasPrefix ? word.Substring(2) : word.Length > 1 && word[word.Length - 1] is 'h' or 'H' ? word.Substring(0, word.Length - 1) : word;
        if (!(digits.Length is 1 or 2 || (hasPrefix ? digits.Length <= 10 : digits.Length is 6 or 8 or 10)))
            return null;
        return Hex.Read(digits.Length % 2 == 0 ? digits : "0" + digits) is { } bytes ? new(bytes, hasPrefix, new(source, start, end - start)) : null;
    }

    private void TakeNamed()
    {
        for (var i = 0; i < words.Count; i++)
        {
            if (words[i].Register is { } address)
                Pairs.Add(new(address, true, ValuesOf(i, address)));
        }
    }

    // What follows the first sign whose value is followed by none, as `RF_CH (0x05) = 0x4A` and `STATUS = 0x0E RX_DR=0`; without a sign what follows the name.
    private List<PlainValue> ValuesOf(int name, byte address)
    {
        var end = words.FindIndex(name + 1, word => word.Register is not null) is >= 0 and var next ? next : words.Count;
        var from = name;
        for (var i = name; i + 1 < end; i++)
        {
            if (!words[i].IsFollowed || words[i + 1].Value is null)
                continue;
            from = i;
            if (!words[i + 1].IsFollowed)
                break;
        }
        var values = words.Skip(from + 1).Take(end - from - 1).TakeWhile(word => word.Value is not null).Select(word => word.Value!).ToList();
        var isWithAddress = values.Count > 1 && values[0].Bytes is [var first] && first == address
            && (values.Count == 2 || (RegisterMap.IsWide(address) && values.Count is 4 or 6));
        return isWithAddress ? values.GetRange(1, values.Count - 1) : values;
    }

    private void TakeValues()
    {
        if (words.Exists(word => word.IsFollowed))
        {
            for (var i = 0; i < words.Count; i++)
            {
                var next = words.FindIndex(i + 1, word => word.IsFollowed);
                var end = next < 0 ? words.Count : next;
                if (words[i].IsFollowed && words[i].Value!.Bytes is [var address])
                    Pairs.Add(new(address, false, words.GetRange(i + 1, end - i - 1).ConvertAll(word => word.Value!)));
                i = end - 1;
            }
            return;
        }
        foreach (var group in words.GroupBy(word => word.Group))
        {
            var values = group.Select(word => word.Value!).ToList();
            if (group.Key > 0 && values.Count is 2 or (>= 4 and <= 6) && values[0].Bytes is [var address] && (values.Count == 2) != RegisterMap.IsWide(address))
                Pairs.Add(new(address, false, values.GetRange(1, values.Count - 1)));
            else
                Bare.AddRange(values);
        }
    }

    private sealed class Word(byte? register, PlainValue? value, int group)
    {
        public byte? Register => register;

        public PlainValue? Value => value;

        /// <summary>True when `=`, `:` or an arrow stands behind it.</summary>
        public bool IsFollowed { get; set; }

        /// <summary>Which braces it stands in; 0 for none, or for such as do not close on this line.</summary>
        public int Group { get; set; } = group;
    }
}
