using System.Globalization;
using System.Text;

namespace RadioLint.Cli.Terminal;

/// <summary>Keeps text that comes out of files from steering the terminal that shows it.</summary>
internal static class Printable
{
    /// <summary>The text on one line, with U+FFFD for each control character and each that turns the writing direction.</summary>
    public static string Text(string text) =>
        text.Any(Steers) ? new StringBuilder(text.Length).AppendJoin("", text.Select(c => Steers(c) ? '\uFFFD' : c)).ToString() : text;

    public static bool Steers(char c) =>
        c < ' ' || c is (>= '\u007F' and <= '\u009F') or (>= '\u2028' and <= '\u202E') or (>= '\u2066' and <= '\u2069') or '\u200E' or '\u200F' or '\uFEFF';

    /// <summary>How many columns of a terminal a character takes: 0, 1 or 2.</summary>
    public static int Width(Rune rune) => Rune.GetUnicodeCategory(rune) switch
    {
        UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark or UnicodeCategory.Format => 0,
        _ => IsWide(rune.Value) ? 2 : 1,
    };

    public static int Width(string text) => text.EnumerateRunes().Sum(Width);

    // Unicode Standard Annex 11: the blocks whose characters are Wide or Fullwidth, taken whole.
    private static bool IsWide(int c) => c >= 0x1100 && c is
        <= 0x115F or (>= 0x2E80 and <= 0x303E) or (>= 0x3041 and <= 0xA4CF) or (>= 0xA960 and <= 0xA97F) or (>= 0xAC00 and <= 0xD7A3)
        or (>= 0xF900 and <= 0xFAFF) or (>= 0xFE30 and <= 0xFE6F) or (>= 0xFF01 and <= 0xFF60) or (>= 0xFFE0 and <= 0xFFE6)
        or (>= 0x1F300 and <= 0x1F64F) or (>= 0x1F680 and <= 0x1F6FF) or (>= 0x1F900 and <= 0x1F9FF) or (>= 0x1FA70 and <= 0x1FAFF)
        or (>= 0x20000 and <= 0x3FFFD);
}
