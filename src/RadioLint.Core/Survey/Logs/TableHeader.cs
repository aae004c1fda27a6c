using System.Collections.Immutable;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>What stands in a column of a table with a header.</summary>
/// <param name="Channel">Of a cell: the channel that it counts for; null where it lies outside 2400 MHz to 2525 MHz.</param>
internal readonly record struct TableColumn(ColumnName Name, int? Channel)
{
    public ColumnKind Kind => Name.Kind;
}

/// <summary>The first row of a table: one row a sample, or one row a sweep.</summary>
internal sealed class TableHeader
{
    private const long Step = 1_000_000;
    private const int LeastFrequency = 1_000;
    private const int ShortestRun = 8;

    private TableHeader(char separator, ImmutableArray<TableColumn> columns)
    {
        Separator = separator;
        Columns = columns;
        IsWide = columns.Any(column => column.Kind == ColumnKind.Cell);
        Counts = columns.Any(column => column.Kind == ColumnKind.Samples) && (IsWide || columns.Any(column => column.Kind == ColumnKind.Heard));
    }

    public char Separator { get; }

    public ImmutableArray<TableColumn> Columns { get; }

    /// <summary>True for one row a sweep, with a column for each channel or frequency.</summary>
    public bool IsWide { get; }

    /// <summary>True where the cells count how often something was heard, false where they are levels.</summary>
    public bool Counts { get; }

    /// <summary>The header in a line. Null where the line is none; the fault says what a line lacks that looks like one.</summary>
    public static (TableHeader? Header, string? Fault) Read(string line)
    {
        var separator = SeparatorOf(line);
        if (separator == default)
            return (null, null);
        var cells = Cells.Of(line, separator);
        if (cells.Length > SurveyLimits.MostColumns)
            return (null, FormattableString.Invariant($"it has more than {SurveyLimits.MostColumns} columns"));
        var names = cells.Select(cell => (Name: ColumnName.Of(cell.Text), cell.Text)).ToList();
        var numbers = names.Where(each => each.Name.Kind == ColumnKind.Cell).Select(each => each.Name).ToList();
        var isWide = numbers.Count >= 2 && numbers.Select(each => each.Number).Distinct(StringComparer.Ordinal).Count() == numbers.Count && names.TrueForAll(each => IsName(each.Text, numbers));
        return isWide ? Wide(separator, names.ConvertAll(each => each.Name), numbers) : Long(separator, names.ConvertAll(each => each.Name));
    }

    /// <summary>The channel whose middle is nearest; null outside of all of them.</summary>
    public static int? ChannelAt(Frequency frequency)
    {
        var from = frequency.Hertz - 2_400_000_000 + (Step / 2);
        return from >= 0 && from / Step < Sweep.Channels ? (int)(from / Step) : null;
    }

    private static (TableHeader?, string?) Wide(char separator, List<ColumnName> names, List<ColumnName> numbers)
    {
        // Plain numbers are channels where all of them can be.
        var areChannels = numbers.TrueForAll(each => each.IsChannel || (each.Unit.Length == 0 && Decimals.TryWhole(each.Number, 0, each.Number.Length, Sweep.Channels - 1, out _)));
        var columns = ImmutableArray.CreateRange(names.Select((name, at) => name.Kind == ColumnKind.Cell ? new(name, ChannelOf(name, areChannels)) : new TableColumn(IsSecond(names, at) ? default : name, null)));
        return columns.Any(column => column.Channel is not null) ? (new(separator, columns), null) : (null, "none of its columns lies between 2400 MHz and 2525 MHz");
    }

    // A row of numbers is no header: bare ones are frequencies, or a run of channels that no counts look like.
    private static bool IsName(string text, List<ColumnName> numbers)
    {
        if (text.Length == 0 || text.Any(c => c is not ((>= '0' and <= '9') or '.' or 'e' or 'E' or '+' or '-')))
            return true;
        return Decimals.TryRead(text, 0, text.Length, 0, out var number) && (number >= LeastFrequency || (number >= 0 && IsRun(numbers)));
    }

    private static bool IsRun(List<ColumnName> numbers)
    {
        for (var i = 1; i < numbers.Count; i++)
        {
            if (!Decimals.TryWhole(numbers[i].Number, 0, numbers[i].Number.Length, Sweep.Channels - 1, out var now)
                || !Decimals.TryWhole(numbers[i - 1].Number, 0, numbers[i - 1].Number.Length, Sweep.Channels - 1, out var before) || now != before + 1)
            {
                return false;
            }
        }
        return numbers.Count >= ShortestRun;
    }

    private static int? ChannelOf(ColumnName name, bool areChannels)
    {
        if (areChannels || name.IsChannel)
            return Decimals.TryWhole(name.Number, 0, name.Number.Length, Sweep.Channels - 1, out var channel) ? channel : null;
        return name.TryFrequency(name.Number, 0, name.Number.Length, out var frequency) ? ChannelAt(frequency) : null;
    }

    private static (TableHeader?, string?) Long(char separator, List<ColumnName> names)
    {
        bool Has(ColumnKind kind) => names.Exists(name => name.Kind == kind);
        var isTuned = Has(ColumnKind.Frequency) || Has(ColumnKind.Channel);
        var tells = Has(ColumnKind.Level) || Has(ColumnKind.Heard);
        if (!isTuned && !tells)
            return (null, null);
        if (!isTuned)
            return (null, "it has no column `frequency` or `channel`");
        if (!tells)
            return (null, "it has no column `level`, and no `heard` with `samples`");
        if (!Has(ColumnKind.Level) && !Has(ColumnKind.Samples))
            return (null, "it has a column `heard` and none `samples`, which says out of how many");
        return (new(separator, ImmutableArray.CreateRange(names.Select((name, at) => new TableColumn(IsSecond(names, at) ? default : name, null)))), null);
    }

    // Of two columns with one meaning the first counts; a frequency says more than a channel's number, which others count otherwise.
    private static bool IsSecond(List<ColumnName> names, int at) =>
        names.FindIndex(name => name.Kind == names[at].Kind) < at || (names[at].Kind == ColumnKind.Channel && names.Exists(name => name.Kind == ColumnKind.Frequency));

    private static char SeparatorOf(string line)
    {
        var (best, most) = (default(char), 0);
        foreach (var separator in new[] { '\t', ';', ',' })
        {
            var count = line.Count(c => c == separator);
            if (count > most)
                (best, most) = (separator, count);
        }
        return best;
    }
}
