using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>What is wrong with a row, from column to column (offsets in the row).</summary>
internal readonly record struct RowFault(int From, int To, string Words);

/// <summary>Reads the rows below a header. Rows are independent of each other: one that is broken costs itself alone.</summary>
internal sealed class TableReader(TableHeader header, PowerLevel threshold, Action<Sweep> take)
{
    private const int LeastLevel = -20_000;
    private const int MostLevel = 3_000;
    private const long MostDwell = 10_000_000_000;

    private readonly TableSweeps sweeps = new(take);
    private readonly LogClock clock = new() { UnitDecimals = header.Columns.FirstOrDefault(column => column.Kind == ColumnKind.Time).Name.TimeDecimals };
    private readonly int[] loudest = new int[Sweep.Channels];
    private string? lastPlace;
    private long number;

    public LogClock Clock => clock;

    /// <summary>True where levels in dBm are held against the threshold; false where somebody else's program or chip has counted.</summary>
    public bool IsOfLevels => !header.Counts && (header.IsWide || header.Columns.Any(column => column.Kind == ColumnKind.Level));

    /// <summary>Rows of more places than are kept apart.</summary>
    public int PassedOver { get; private set; }

    /// <summary>Rows of frequencies outside of 2400 MHz to 2525 MHz.</summary>
    public int Outside { get; private set; }

    /// <summary>The time on each channel that the latest row tells, and in which columns of it; null when it tells none.</summary>
    public (Duration Time, int From, int To)? Dwell { get; private set; }

    /// <summary>Takes a row; says what is wrong with one that is not used.</summary>
    /// <param name="arrived">When it came, for a row that does not tell a time.</param>
    public RowFault? Take(string row, Duration? arrived)
    {
        var cells = new Cells(row, header.Separator);
        var read = new Row { Channel = -1, Of = header.Counts || !IsOfLevels ? 0 : 1, Heard = -1 };
        Array.Clear(loudest, 0, loudest.Length);
        Dwell = null;
        foreach (var column in header.Columns)
        {
            if (!cells.MoveNext())
                return new(row.Length, row.Length, FormattableString.Invariant($"it has fewer cells than the {header.Columns.Length} of the header"));
            if (column.Kind != ColumnKind.Other && Take(column, row, in cells, ref read) is { } fault)
                return new(cells.From, cells.To, fault);
        }
        // One separator more at the end is a habit of some programs.
        if (cells.MoveNext() && (!cells.IsEmpty || cells.MoveNext()))
            return new(cells.From, cells.To, FormattableString.Invariant($"it has more cells than the {header.Columns.Length} of the header"));
        if (arrived is { } since && clock.Elapsed is null)
            read.At = since;
        return header.IsWide ? EndWide(row, in read) : EndLong(row, in read);
    }

    public void End() => sweeps.End();

    private string? Take(in TableColumn column, string row, in Cells cells, ref Row read)
    {
        switch (column.Kind)
        {
            case ColumnKind.Time:
                // Some programs write the time into the first row of a sweep alone.
                return (cells.IsEmpty && clock.Elapsed is not null) || clock.TryTake(row, cells.From, cells.To) ? read.Timed(clock.Elapsed) : $"`{Shown(cells)}` is no time in the form of the rows before";
            case ColumnKind.Cell:
                return column.Channel is { } wide && !IsMissing(row, cells) ? TakeCell(wide, row, cells, ref read) : null;
            case ColumnKind.Frequency:
                if (!column.Name.TryFrequency(row, cells.From, cells.To, out var frequency))
                    return $"`{Shown(cells)}` is no frequency";
                (read.Frequency, read.Channel) = (frequency.Hertz, TableHeader.ChannelAt(frequency) ?? -1);
                return null;
            case ColumnKind.Channel:
                if (!Decimals.TryWhole(row, cells.From, cells.To, Sweep.Channels - 1, out read.Channel))
                    return $"`{Shown(cells)}` is no channel from 0 to 125";
                return null;
            case ColumnKind.Level when IsOfLevels:
                if (LevelFault(row, cells, out var level) is { } noLevel)
                    return noLevel;
                read.Heard = level >= threshold.Centi ? 1 : 0;
                return null;
            case ColumnKind.Heard when !IsOfLevels:
                return Decimals.TryWhole(row, cells.From, cells.To, SurveyLimits.MostCounted, out read.Heard) ? null : $"`{Shown(cells)}` is no count";
            case ColumnKind.Samples when !IsOfLevels:
                return Decimals.TryWhole(row, cells.From, cells.To, SurveyLimits.MostCounted, out read.Of) && read.Of > 0 ? null : $"`{Shown(cells)}` is no number of samples";
            case ColumnKind.Place:
                if (cells.To - cells.From > SurveyLimits.LongestPlace)
                    return FormattableString.Invariant($"the name of the place is longer than {SurveyLimits.LongestPlace} characters");
                read.Where = cells.IsEmpty ? null : PlaceIn(row, cells);
                return null;
            case ColumnKind.Sweep:
                if (!Decimals.TryRead(row, cells.From, cells.To, 0, out var told))
                    return $"`{Shown(cells)}` is no number of a sweep";
                read.Sweep = told;
                return null;
            case ColumnKind.Dwell:
                if (!Decimals.TryRead(row, cells.From, cells.To, column.Name.Unit.Length == 0 ? 3 : column.Name.TimeDecimals, out var time) || time is < 0 or > MostDwell)
                    return $"`{Shown(cells)}` is no dwell";
                read.Dwell = new(time);
                Dwell = (new(time), cells.From, cells.To);
                return null;
            default:
                return null;
        }

        string Shown(in Cells cell) => row.Substring(cell.From, Math.Min(cell.To - cell.From, 40));
    }

    // Of several steps within a channel the loudest counts. One more than the value, so that 0 says that nothing was told.
    private string? TakeCell(int channel, string row, in Cells cells, ref Row read)
    {
        if (header.Counts)
        {
            if (!Decimals.TryWhole(row, cells.From, cells.To, SurveyLimits.MostCounted, out var count))
                return $"`{row.Substring(cells.From, Math.Min(cells.To - cells.From, 40))}` is no count";
            loudest[channel] = Math.Max(loudest[channel], count + 1);
            return null;
        }
        if (LevelFault(row, cells, out var level) is { } fault)
            return fault;
        read.HasNegative |= level < 0;
        loudest[channel] = Math.Max(loudest[channel], level - LeastLevel + 1);
        return null;
    }

    private static string? LevelFault(string row, in Cells cells, out int level)
    {
        var isNumber = Decimals.TryRead(row, cells.From, cells.To, 2, out var centi);
        level = isNumber && centi is >= LeastLevel and <= MostLevel ? (int)centi : 0;
        if (isNumber && level == centi)
            return null;
        var shown = row.Substring(cells.From, Math.Min(cells.To - cells.From, 40));
        return isNumber ? $"{shown} is no level in dBm, which lies from -200 to 30"
            : shown.IndexOf(',') >= 0 ? $"`{shown}` is no level: the decimal mark is the point"
            : $"`{shown}` is no level";
    }

    private RowFault? EndWide(string row, in Row read)
    {
        if (!header.Counts && !read.HasNegative)
            return new(0, row.Length, "none of its levels is below 0 dBm: for counts a column `samples` says out of how many");
        var sweep = new Sweep { Where = read.Where, Number = read.Sweep ?? ++number, At = read.At, Dwell = read.Dwell };
        for (var channel = 0; channel < loudest.Length; channel++)
        {
            if (loudest[channel] == 0)
                continue;
            var value = loudest[channel] - 1;
            if (header.Counts && value > read.Of)
                return new(0, row.Length, FormattableString.Invariant($"channel {channel} was heard {value} times in {read.Of} samples"));
            sweep.Samples[channel] = header.Counts ? read.Of : 1;
            sweep.Heard[channel] = header.Counts ? value : value + LeastLevel >= threshold.Centi ? 1 : 0;
        }
        take(sweep);
        return null;
    }

    private RowFault? EndLong(string row, in Row read)
    {
        if (read.Channel < 0)
        {
            Outside++;
            return null;
        }
        if (read.Heard > read.Of)
            return new(0, row.Length, FormattableString.Invariant($"channel {read.Channel} was heard {read.Heard} times in {read.Of} samples"));
        if (!sweeps.Knows(read.Where) && sweeps.Places == SurveyLimits.MostPlaces)
            PassedOver++;
        else
            sweeps.Take(new(read.Where, read.Sweep, read.Frequency, read.Channel, read.Heard, read.Of, read.At, read.Dwell));
        return null;
    }

    // Most rows are of the place of the row before: the same string serves for all of them.
    private string PlaceIn(string row, in Cells cells)
    {
        if (lastPlace is null || lastPlace.Length != cells.To - cells.From || string.CompareOrdinal(lastPlace, 0, row, cells.From, lastPlace.Length) != 0)
            lastPlace = cells.Text;
        return lastPlace;
    }

    private static bool IsMissing(string row, in Cells cells) =>
        cells.IsEmpty || (cells.To - cells.From == 3 && string.Compare(row, cells.From, "nan", 0, 3, StringComparison.OrdinalIgnoreCase) == 0);

    private struct Row
    {
        public string? Where;
        public long? Sweep;
        public long Frequency;
        public int Channel;
        public int Heard;
        public int Of;
        public bool HasNegative;
        public Duration? At;
        public Duration? Dwell;

        public string? Timed(Duration? at)
        {
            At = at;
            return null;
        }
    }
}
