using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>
/// The time of a log, in the form in which its first row writes it: `2026-05-02 18:30:12.5` (also with `T`; what follows the seconds' decimals, such as an offset, is left out), `18:30:12` (past
/// midnight the next day), seconds since 1970 (coordinated universal time), or seconds since any moment; `unit` is milliseconds or microseconds where the header says so.
/// </summary>
internal sealed class LogClock
{
    private const long Second = 1_000_000_000;
    private const long Day = 86_400 * Second;

    // 2001 in seconds since 1970: no survey lasts as long.
    private const long LeastEpoch = 1_000_000_000;

    private const int MostDays = 3_660;

    private static readonly DateTime Epoch = new(1970, 1, 1, 0, 0, 0, DateTimeKind.Unspecified);

    private enum Form { Unknown, Date, OfDay, Number }

    private Form form;
    private long first;
    private long days;
    private long lastOfDay;

    /// <summary>Decimals that a whole number of nanoseconds has in the column's unit: 9 for seconds.</summary>
    public int UnitDecimals { get; init; } = 9;

    /// <summary>The date and time of the first row; null where rows do not tell dates.</summary>
    public DateTime? Begun { get; private set; }

    /// <summary>From the first row to the latest one so far; null before the first.</summary>
    public Duration? Elapsed { get; private set; }

    /// <summary>Takes the time of a row. False where it is none, or of another form than the first.</summary>
    public bool TryTake(string text, int from, int to)
    {
        if (!TryRead(text, from, to, out var now, out var read) || (form != Form.Unknown && form != read))
            return false;
        if (read == Form.OfDay)
        {
            days += form == Form.OfDay && now < lastOfDay - (Day / 2) ? 1 : 0;
            if (days > MostDays)
                return false;
            lastOfDay = now;
            now += days * Day;
        }
        if (form == Form.Unknown)
        {
            (form, first) = (read, now);
            Begun = read == Form.Date ? Epoch.AddTicks(now / 100) : read == Form.Number && now / Second >= LeastEpoch ? Epoch.AddTicks(now / 100) : null;
        }
        // A clock that is set back stands still meanwhile.
        var since = new Duration(Math.Max(0, now - first));
        Elapsed = Elapsed is { } before && before > since ? before : since;
        return true;
    }

    /// <summary>Takes a moment counted from the beginning: that of a line's arrival.</summary>
    public void Arrive(Duration since)
    {
        form = Form.Number;
        Elapsed = since;
    }

    private bool TryRead(string text, int from, int to, out long nanoseconds, out Form read)
    {
        read = Form.OfDay;
        if (TryOfDay(text, from, to, out nanoseconds))
            return true;
        read = Form.Date;
        if (TryDate(text, from, to, out var midnight) && TryOfDay(text, from + 11, to, out nanoseconds))
        {
            nanoseconds += midnight;
            return true;
        }
        read = Form.Number;
        return Decimals.TryRead(text, from, to, UnitDecimals, out nanoseconds) && nanoseconds >= 0;
    }

    private static bool TryDate(string text, int from, int to, out long midnight)
    {
        midnight = 0;
        if (to - from < 16 || text[from + 4] is not ('-' or '/') || text[from + 7] != text[from + 4] || text[from + 10] is not (' ' or 'T')
            || !Decimals.TryWhole(text, from, from + 4, 2200, out var year) || year < 1971
            || !Decimals.TryWhole(text, from + 5, from + 7, 12, out var month) || month == 0
            || !Decimals.TryWhole(text, from + 8, from + 10, DateTime.DaysInMonth(year, month), out var day) || day == 0)
        {
            return false;
        }
        midnight = (long)(new DateTime(year, month, day) - Epoch).TotalDays * Day;
        return true;
    }

    // `18:30`, `18:30:12`, `18:30:12.345`; an offset or `Z` after it is passed over.
    private static bool TryOfDay(string text, int from, int to, out long nanoseconds)
    {
        nanoseconds = 0;
        if (to - from < 5 || text[from + 2] != ':'
            || !Decimals.TryWhole(text, from, from + 2, 23, out var hour) || !Decimals.TryWhole(text, from + 3, from + 5, 59, out var minute))
        {
            return false;
        }
        var (at, second) = (from + 5, 0L);
        if (at < to && text[at] == ':')
        {
            var end = at + 1;
            while (end < to && text[end] is (>= '0' and <= '9') or '.')
                end++;
            if (end - at < 3 || text[at + 1] is '.' || !Decimals.TryRead(text, at + 1, end, 9, out second) || second >= 61 * Second)
                return false;
            at = end;
        }
        nanoseconds = (((hour * 60L) + minute) * 60 * Second) + second;
        return at == to || IsOffset(text, at, to);
    }

    private static bool IsOffset(string text, int at, int to) => (text[at] == 'Z' && at + 1 == to)
        || (text[at] is '+' or '-' && to - at is 3 or 5 or 6 && Decimals.TryWhole(text, at + 1, at + 3, 14, out _));
}
