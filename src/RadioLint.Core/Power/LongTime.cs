using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>Times between visits in the words people use for them; cut off, never rounded up.</summary>
public static class LongTime
{
    private const long Hour = 3_600_000_000_000, Day = 24 * Hour, Year = 31_557_600_000_000_000, Month = Year / 12;

    public static string InWords(Duration time) => time.Nanoseconds switch
    {
        < 3 * Day => Count(time.Nanoseconds / Hour, "hour"),
        < 100 * Day => Count(time.Nanoseconds / Day, "day"),
        < 3 * Year when time.Nanoseconds % Year != 0 => Count(time.Nanoseconds / Month, "month"),
        _ => Count(time.Nanoseconds / Year, "year"),
    };

    private static string Count(long number, string unit) => FormattableString.Invariant($"{number} {unit}{(number == 1 ? "" : "s")}");
}
