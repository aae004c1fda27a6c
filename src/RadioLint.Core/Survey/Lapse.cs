using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>Lengths of surveys in words: whole seconds, minutes, hours or days, rounded up, as fits.</summary>
public static class Lapse
{
    private const long Second = 1_000_000_000;
    private const long Minute = 60 * Second;

    public static string InWords(Duration time) => time.Nanoseconds switch
    {
        < 2 * Minute => Count(time, Second, "s"),
        < 120 * Minute => Count(time, Minute, "min"),
        < 48 * 60 * Minute => Count(time, 60 * Minute, "h"),
        _ => Count(time, 24 * 60 * Minute, "days"),
    };

    private static string Count(Duration time, long unit, string name) => FormattableString.Invariant($"{(time.Nanoseconds / unit) + (time.Nanoseconds % unit > 0 ? 1 : 0)} {name}");
}
