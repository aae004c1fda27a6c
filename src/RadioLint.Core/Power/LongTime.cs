using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>Times between visits in the words people use for them; cut off, never rounded up.</summary>
public static class LongTime
{
    private const long Minute = 60_000_000_000, Hour = 60 * Minute, Day = 24 * Hour, Year = 31_557_600_000_000_000, Month = Year / 12;

    public static string InWords(Duration time)
    {
        var (number, unit) = Split(time);
        return FormattableString.Invariant($"{number} {unit}{(number == 1 ? "" : "s")}");
    }

    /// <summary>`154 to 188 hours`, or one time where both are said alike.</summary>
    public static string InWords(Between<Duration> range)
    {
        var ((low, lowUnit), (high, highUnit)) = (Split(range.Low), Split(range.High));
        return lowUnit != highUnit ? $"{InWords(range.Low)} to {InWords(range.High)}"
            : low == high ? InWords(range.High)
            : FormattableString.Invariant($"{low} to {high} {highUnit}s");
    }

    private static (long Number, string Unit) Split(Duration time) => time.Nanoseconds switch
    {
        < 2 * Hour => (time.Nanoseconds / Minute, "minute"),
        < 10 * Day => (time.Nanoseconds / Hour, "hour"),
        < 400 * Day when time.Nanoseconds % Day == 0 => (time.Nanoseconds / Day, "day"),
        < 100 * Day => (time.Nanoseconds / Day, "day"),
        < 3 * Year when time.Nanoseconds % Year != 0 => (time.Nanoseconds / Month, "month"),
        _ => (time.Nanoseconds / Year, "year"),
    };
}
