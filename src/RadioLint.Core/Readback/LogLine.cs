using RadioLint.Text;

namespace RadioLint.Readback;

/// <summary>Bounds of what is read out of a log, which anybody may have written.</summary>
public static class LogLimits
{
    /// <summary>Characters of a line; what is longer is no line of a node, and passed over. A report has 120, a C array of all registers some 250.</summary>
    public const int LongestLine = 1_000;

    /// <summary>Lines of a log; what comes after them is not read.</summary>
    public const int MostLines = 20_000_000;

    /// <summary>Nodes of a log, many more than a network of six pipes a receiver has.</summary>
    public const int MostNodes = 1_000;

    /// <summary>Listings of a node that are kept, from the first ones and from the last ones.</summary>
    public const int KeptListings = 4;
}

/// <summary>A line of a log.</summary>
/// <param name="Text">Without its end; empty when the line is too long.</param>
/// <param name="Number">Counted from 1.</param>
public readonly record struct LogLine(string Text, int Number)
{
    /// <summary>True when it had more characters than the splitter holds.</summary>
    public bool IsTooLong { get; init; }

    /// <summary>True for what stands after the last line's end: it may be the beginning of a longer line.</summary>
    public bool IsOpen { get; init; }
}

/// <summary>Cuts characters as they come into lines that end at LF, CRLF or CR, as <see cref="SourceText"/> counts them. Holds one line.</summary>
/// <param name="longest">Characters of a line that are kept; a longer one is told of as such.</param>
public sealed class LineSplitter(int longest = LogLimits.LongestLine)
{
    private readonly char[] line = new char[longest];
    private int used;
    private int number = 1;
    private bool isTooLong;
    private bool isAfterReturn;

    /// <summary>The lines that end within some more characters.</summary>
    public IEnumerable<LogLine> Add(char[] characters, int count)
    {
        for (var i = 0; i < count; i++)
        {
            var c = characters[i];
            var isEnd = c == '\r' || (c == '\n' && !isAfterReturn);
            if (isEnd)
                yield return Take();
            else if (c != '\n')
                Keep(c);
            isAfterReturn = c == '\r';
        }
    }

    /// <summary>What stands after the last line's end; null when nothing does.</summary>
    public LogLine? End() => used > 0 || isTooLong ? Take() with { IsOpen = true } : null;

    private void Keep(char c)
    {
        if (used == line.Length)
            isTooLong = true;
        else
            line[used++] = c;
    }

    private LogLine Take()
    {
        var taken = new LogLine(isTooLong ? "" : new string(line, 0, used), number++) { IsTooLong = isTooLong };
        used = 0;
        isTooLong = false;
        return taken;
    }
}
