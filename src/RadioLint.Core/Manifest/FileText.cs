using System.Text;
using RadioLint.Findings;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;

namespace RadioLint.Manifest;

/// <summary>From a file's bytes to its text, with the bounds and the characters that a manifest may have.</summary>
public static class FileText
{
    /// <summary>The largest file that is read: 16 MiB.</summary>
    public const int MaxBytes = 16 * 1024 * 1024;

    /// <summary>The text without a byte order mark, or null with a finding.</summary>
    public static SourceText? Decode(string name, byte[] bytes, List<Finding> findings)
    {
        if (bytes.Length > MaxBytes)
        {
            findings.Add(SyntaxError.At(
                new(new(name, ""), 0, 0),
                FormattableString.Invariant($"the file has more than {MaxBytes / 1024 / 1024} MiB, the most that is read")));
            return null;
        }
        var text = Text(name, bytes, findings);
        return text is null || Refused(text, findings) ? null : text;
    }

    /// <summary>Adds a finding and says true when the text holds a character that no manifest may hold.</summary>
    public static bool Refused(SourceText source, List<Finding> findings)
    {
        for (var i = 0; i < source.Text.Length; i++)
        {
            if (IsPlain(source.Text[i]) || IsPair(source.Text, ref i))
                continue;
            findings.Add(SyntaxError.At(new(source, i, 1), FormattableString.Invariant($"the control character U+{(int)source.Text[i]:X4} stands here")));
            return true;
        }
        return false;
    }

    // YAML 1.2.2 production 1, less NEL and the two Unicode separators: old readers end lines there and editors do not.
    private static bool IsPlain(char c) =>
        c is (>= ' ' and <= '~') or '\t' or '\n' or '\r' or (>= '\u00a0' and < '\u2028') or (> '\u2029' and < '\ud800') or (> '\udfff' and < '\ufeff') or (> '\ufeff' and < '\ufffe');

    private static bool IsPair(string text, ref int at)
    {
        if (!char.IsHighSurrogate(text[at]) || at + 1 == text.Length || !char.IsLowSurrogate(text[at + 1]))
            return false;
        at++;
        return true;
    }

    private static SourceText? Text(string name, byte[] bytes, List<Finding> findings)
    {
        var skip = bytes.Length >= 3 && bytes[0] == 0xEF && bytes[1] == 0xBB && bytes[2] == 0xBF ? 3 : 0;
        var fault = FirstFault(bytes, skip);
        var source = new SourceText(name, Encoding.UTF8.GetString(bytes, skip, fault - skip));
        if (fault == bytes.Length)
            return source;
        findings.Add(NotPlainText.Encoding(new(source, source.Text.Length, 0), bytes[fault]));
        return null;
    }

    // The first byte of the first ill-formed sequence; the length when there is none. Unicode 15.0, table 3-7; the decoder does not say where it stopped.
    private static int FirstFault(byte[] bytes, int start)
    {
        var at = start;
        while (at < bytes.Length)
        {
            var (length, low, high) = bytes[at] switch
            {
                <= 0x7F => (1, 0x80, 0xBF),
                >= 0xC2 and <= 0xDF => (2, 0x80, 0xBF),
                0xE0 => (3, 0xA0, 0xBF),
                0xED => (3, 0x80, 0x9F),
                >= 0xE1 and <= 0xEF => (3, 0x80, 0xBF),
                0xF0 => (4, 0x90, 0xBF),
                >= 0xF1 and <= 0xF3 => (4, 0x80, 0xBF),
                0xF4 => (4, 0x80, 0x8F),
                _ => (0, 0, 0),
            };
            if (length == 0 || at + length > bytes.Length || !Follows(bytes, at + 1, length - 1, low, high))
                return at;
            at += length;
        }
        return at;
    }

    private static bool Follows(byte[] bytes, int at, int count, int low, int high)
    {
        for (var i = 0; i < count; i++)
        {
            if (bytes[at + i] < (i == 0 ? low : 0x80) || bytes[at + i] > (i == 0 ? high : 0xBF))
                return false;
        }
        return true;
    }
}
