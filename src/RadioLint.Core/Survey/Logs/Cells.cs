using System.Collections.Immutable;

namespace RadioLint.Survey;

/// <summary>The cells of a row, found one after the other; blanks and quotes round a cell do not count.</summary>
internal struct Cells(string row, char separator)
{
    private int next;

    /// <summary>Where the cell begins, and where it is over.</summary>
    public int From { get; private set; }

    public int To { get; private set; }

    public readonly bool IsEmpty => From == To;

    public readonly string Text => row.Substring(From, To - From);

    /// <summary>Goes on to the next cell; false after the last.</summary>
    public bool MoveNext()
    {
        if (next > row.Length)
            return false;
        var (at, isQuoted) = (next, false);
        while (at < row.Length && (isQuoted || row[at] != separator))
        {
            if (row[at] == '"')
                isQuoted = !isQuoted;
            at++;
        }
        (From, To) = (next, at);
        next = at + 1;
        Trim();
        if (To - From >= 2 && row[From] == '"' && row[To - 1] == '"')
        {
            (From, To) = (From + 1, To - 1);
            Trim();
        }
        return true;
    }

    /// <summary>All cells as text.</summary>
    public static ImmutableArray<(string Text, int From, int To)> Of(string row, char separator)
    {
        var all = ImmutableArray.CreateBuilder<(string, int, int)>();
        for (var cells = new Cells(row, separator); cells.MoveNext() && all.Count <= SurveyLimits.MostColumns;)
            all.Add((cells.Text, cells.From, cells.To));
        return all.ToImmutable();
    }

    private void Trim()
    {
        while (From < To && row[From] is ' ' or '\t')
            From++;
        while (To > From && row[To - 1] is ' ' or '\t')
            To--;
    }
}
