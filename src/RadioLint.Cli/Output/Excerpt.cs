using System.Text;
using RadioLint.Cli.Terminal;
using RadioLint.Text;

namespace RadioLint.Cli.Output;

/// <summary>The line that a finding is about and a mark under the stretch meant, cut to the width of a page round that stretch.</summary>
internal static class Excerpt
{
    private const string Gap = "...";
    private const int TabStop = 4;

    // A line may be the whole file: only this many characters on each side are looked at.
    private const int Reach = 200;

    /// <summary>Both lines without indent; null when there is nothing to show.</summary>
    /// <param name="columns">The most that either may take.</param>
    public static (string Line, string Mark)? Of(Place place, int columns)
    {
        var text = place.Source.Text;
        var at = Math.Min(place.Start, text.Length);
        var lineStart = at - (place.From.Column - 1);
        var from = OnCharacter(text, Math.Max(lineStart, at - Reach));
        var to = from;
        while (to < text.Length && to < at + Reach && text[to] is not ('\n' or '\r'))
            to++;
        to = OnCharacter(text, to);
        var goesOn = to < text.Length && text[to] is not ('\n' or '\r');
        var cells = Cells(text, from, to);
        if (cells.TrueForAll(cell => string.IsNullOrWhiteSpace(cell.Text)))
            return null;

        var width = cells.Sum(cell => cell.Width);
        var markFrom = cells.Where(cell => cell.Offset < at).Sum(cell => cell.Width);
        var markWidth = cells.Where(cell => cell.Offset >= at && cell.Offset < place.End).Sum(cell => cell.Width);
        var (left, right) = Window(width, markFrom, markWidth, columns, from > lineStart, goesOn);
        var (before, after) = (left > 0 || from > lineStart ? Gap : "", right < width || goesOn ? Gap : "");
        var line = new StringBuilder(before);
        var x = 0;
        foreach (var cell in cells)
        {
            // What an edge cuts in two, a wide character or a tab, is blank.
            if (x >= left && x + cell.Width <= right)
                line.Append(cell.Text);
            else if (x < right && x + cell.Width > left)
                line.Append(' ', Math.Min(x + cell.Width, right) - Math.Max(x, left));
            x += cell.Width;
        }
        var shown = Math.Max(1, Math.Min(markFrom + markWidth, right) - markFrom);
        return ((line + after).TrimEnd(), new string(' ', before.Length + markFrom - left) + "^" + new string('~', shown - 1));
    }

    // Which columns of the line to show: all, or those round the mark with room for the gaps.
    private static (int Left, int Right) Window(int width, int markFrom, int markWidth, int columns, bool isCutBefore, bool isCutAfter)
    {
        // A mark after the last character needs a column too.
        if (Math.Max(width, markFrom + 1) + (isCutBefore ? Gap.Length : 0) + (isCutAfter ? Gap.Length : 0) <= columns)
            return (0, width);
        var room = columns - (2 * Gap.Length);
        var lead = Math.Max((room - markWidth) / 2, room / 8);
        var left = Math.Max(0, Math.Min(markFrom - lead, width - room));
        return (left, Math.Min(width, left + room));
    }

    private static List<(string Text, int Offset, int Width)> Cells(string text, int from, int to)
    {
        var cells = new List<(string Text, int Offset, int Width)>();
        var x = 0;
        for (var i = from; i < to;)
        {
            Rune.DecodeFromUtf16(text.AsSpan(i, to - i), out var rune, out var length);
            var (shown, width) = text[i] == '\t' ? (new string(' ', TabStop - (x % TabStop)), TabStop - (x % TabStop))
                : Printable.Steers(text[i]) ? ("\uFFFD", 1)
                : (rune.ToString(), Printable.Width(rune));
            if (width == 0 && cells.Count > 0)
                cells[^1] = cells[^1] with { Text = cells[^1].Text + shown };
            else
                cells.Add((shown, i, width));
            x += width;
            i += length;
        }
        return cells;
    }

    private static int OnCharacter(string text, int at) => at > 0 && at < text.Length && char.IsLowSurrogate(text[at]) ? at - 1 : at;
}
