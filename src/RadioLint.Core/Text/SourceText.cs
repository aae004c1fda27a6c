namespace RadioLint.Text;

/// <summary>A file's text and where its lines begin. Lines end at LF, CRLF or CR; offsets count UTF-16 units.</summary>
public sealed class SourceText
{
    // Made when first asked for: a text without findings needs no lines.
    private int[]? lineStarts;

    public SourceText(string name, string text)
        : this(name, text, 1)
    {
    }

    /// <summary>A part of a file that is too long to hold: a line of a log.</summary>
    /// <param name="firstLine">The number in the file of its first line.</param>
    public SourceText(string name, string text, int firstLine)
    {
        Name = name;
        Text = text;
        FirstLine = firstLine;
    }

    /// <summary>The file as the user named it, with '/' between folders; `&lt;stdin&gt;` for standard input.</summary>
    public string Name { get; }

    public string Text { get; }

    /// <summary>The number in the file of the text's first line; 1 for a whole file.</summary>
    public int FirstLine { get; }

    public int LineCount => Starts.Length;

    private int[] Starts => lineStarts ??= LineStarts(Text);

    /// <summary>Line and column, both from 1, of an offset; an offset past the end counts as the end.</summary>
    public LinePosition PositionOf(int offset)
    {
        var inside = Math.Min(Math.Max(offset, 0), Text.Length);
        var index = Array.BinarySearch(Starts, inside);
        var line = index >= 0 ? index : ~index - 1;
        return new(line + FirstLine, inside - Starts[line] + 1);
    }

    /// <summary>The text of a line by its number in the file, without its end.</summary>
    public string Line(int line)
    {
        var index = line - FirstLine;
        var start = Starts[index];
        var end = index + 1 < Starts.Length ? Starts[index + 1] : Text.Length;
        while (end > start && Text[end - 1] is '\n' or '\r')
            end--;
        return Text.Substring(start, end - start);
    }

    private static int[] LineStarts(string text)
    {
        // Counted first: a file of nothing but line ends must not need several times its size.
        var count = 1;
        for (var i = 0; i < text.Length; i++)
        {
            if (EndsLine(text, i))
                count++;
        }
        var starts = new int[count];
        for (int i = 0, line = 1; line < count; i++)
        {
            if (EndsLine(text, i))
                starts[line++] = i + 1;
        }
        return starts;
    }

    private static bool EndsLine(string text, int at) =>
        text[at] == '\n' || (text[at] == '\r' && (at + 1 == text.Length || text[at + 1] != '\n'));
}

/// <summary>A place that a person can go to: line and column from 1, in UTF-16 units.</summary>
public readonly record struct LinePosition(int Line, int Column);

/// <summary>A stretch of one file's text.</summary>
public readonly record struct Place(SourceText Source, int Start, int Length)
{
    public int End => Start + Length;

    public LinePosition From => Source.PositionOf(Start);

    public LinePosition To => Source.PositionOf(End);

    public string Text => Source.Text.Substring(Start, Length);

    /// <summary>The part on its first line: enough to find a map, of which underlining all would hide the rest.</summary>
    public Place FirstLine => Source.Text.IndexOfAny(['\n', '\r'], Start, Length) is >= 0 and var end ? this with { Length = end - Start } : this;

    /// <summary>True when the other lies in this one, in the same file.</summary>
    public bool Contains(Place other) => ReferenceEquals(Source, other.Source) && Start <= other.Start && other.End <= End;

    public override string ToString() => FormattableString.Invariant($"{Source.Name}:{From.Line}:{From.Column}");
}
