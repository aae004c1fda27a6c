using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>Lengths of surveys in words: whole seconds, minutes, hours or days, as fits.</summary>
public static class Lapse
{
    private const long Second = 1_000_000_000;
    private const long Minute = 60 * Second;

    /// <summary>Rounded up: what is still to come is never none.</summary>
    public static string InWords(Duration time)
    {
        var (unit, name) = UnitOf(time);
        return FormattableString.Invariant($"{(time.Nanoseconds / unit) + (time.Nanoseconds % unit > 0 ? 1 : 0)} {name}");
    }

    /// <summary>Cut off: what falls short of a limit is never said to reach it.</summary>
    public static string CutOff(Duration time)
    {
        var (unit, name) = UnitOf(time);
        return FormattableString.Invariant($"{time.Nanoseconds / unit} {name}");
    }

    private static (long Unit, string Name) UnitOf(Duration time) => time.Nanoseconds switch
    {
        < 2 * Minute => (Second, "s"),
        < 120 * Minute => (Minute, "min"),
        < 48 * 60 * Minute => (60 * Minute, "h"),
        _ => (24 * 60 * Minute, "days"),
    };
}
