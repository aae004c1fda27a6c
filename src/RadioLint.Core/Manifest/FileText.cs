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

    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

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
            var c = source.Text[i];
            if (c is (>= ' ' and not '\u007f') or '\t' or '\n' or '\r')
                continue;
            findings.Add(SyntaxError.At(new(source, i, 1), FormattableString.Invariant($"the control character U+{(int)c:X4} stands here")));
            return true;
        }
        return false;
    }

    private static SourceText? Text(string name, byte[] bytes, List<Finding> findings)
    {
        var skip = bytes.Length >= 3 && bytes[0] == 0xEF && bytes[1] == 0xBB && bytes[2] == 0xBF ? 3 : 0;
        try
        {
            return new(name, Strict.GetString(bytes, skip, bytes.Length - skip));
        }
        catch (DecoderFallbackException)
        {
            var (good, at) = UpToFirstFault(bytes, skip);
            var source = new SourceText(name, good);
            findings.Add(SyntaxError.At(
                new(source, good.Length, 0),
                FormattableString.Invariant($"the byte 0x{bytes[at]:X2} here is not UTF-8")));
            return null;
        }
    }

    // The decoder does not say where it stopped in both targets: feed it byte by byte.
    private static (string Good, int At) UpToFirstFault(byte[] bytes, int start)
    {
        var decoder = Strict.GetDecoder();
        var chars = new char[2];
        var good = new StringBuilder();
        var complete = start;
        for (var i = start; i < bytes.Length; i++)
        {
            try
            {
                var count = decoder.GetChars(bytes, i, 1, chars, 0, flush: i == bytes.Length - 1);
                good.Append(chars, 0, count);
                if (count > 0)
                    complete = i + 1;
            }
            catch (DecoderFallbackException)
            {
                return (good.ToString(), complete);
            }
        }
        return (good.ToString(), Math.Min(complete, bytes.Length - 1));
    }
}
