namespace RadioLint.Manifest;

/// <summary>What is wrong with the spelling of a quantity, and what was probably meant.</summary>
internal sealed record Slip(string Fault, string Meant);

/// <summary>The usual slips in writing quantities: no blank, a decimal comma, a unit spelt otherwise, another sign for a range.</summary>
internal static class Slips
{
    // The manifest is ASCII; people write what data sheets and shops print.
    private static readonly (string Written, string Unit)[] Spellings =
    [
        ("v", "V"), ("volt", "V"), ("volts", "V"), ("ma", "mA"), ("µA", "uA"), ("μA", "uA"), ("µF", "uF"), ("μF", "uF"), ("µH", "uH"), ("μH", "uH"),
        ("µs", "us"), ("μs", "us"), ("usec", "us"), ("msec", "ms"), ("sec", "s"), ("secs", "s"), ("second", "s"), ("seconds", "s"), ("m", "min"),
        ("mins", "min"), ("minute", "min"), ("minutes", "min"), ("hr", "h"), ("hrs", "h"), ("hour", "h"), ("hours", "h"), ("d", "days"), ("yr", "years"),
        ("Ω", "ohm"), ("Ω", "ohm"), ("ohms", "ohm"), ("R", "ohm"), ("kΩ", "kohm"), ("kΩ", "kohm"), ("k", "kohm"), ("K", "kohm"), ("MΩ", "Mohm"),
        ("°C", "degC"), ("℃", "degC"), ("C", "degC"), ("celsius", "degC"), ("dB", "dBi"), ("percent", "%"), ("metre", "m"), ("metres", "m"),
        ("meter", "m"), ("meters", "m"), ("Bd", "baud"), ("bps", "baud"), ("byte", "bytes"), ("mah", "mAh"),
    ];

    private static readonly (string Kind, string[] Units)[] Kinds =
    [
        ("a voltage", ["V", "mV", "kV"]), ("a current", ["A", "mA", "uA", "nA"]), ("a frequency", ["Hz", "kHz", "MHz", "GHz"]),
        ("a time", ["s", "ms", "us", "ns", "min", "h", "day", "days", "week", "weeks", "month", "months", "year", "years"]),
        ("a length", ["m", "cm", "mm", "km"]), ("a power level", ["dBm"]), ("an antenna's gain", ["dBi"]), ("a ratio", ["dB"]),
        ("a power", ["W", "mW"]), ("a capacitance", ["pF", "nF", "uF", "mF"]), ("a resistance", ["ohm", "kohm", "mohm", "Mohm"]),
        ("an inductance", ["nH", "uH", "mH"]), ("a temperature", ["degC"]), ("a charge", ["uAh", "mAh", "Ah"]), ("a share", ["%", "ppm"]),
        ("a serial speed", ["baud"]), ("a data rate", ["kbps", "Mbps"]), ("a number of bytes", ["byte", "bytes"]),
    ];

    private static readonly string[] RangeSigns = ["...", "..", "…", "-", "–", "to"];

    /// <summary>What a unit measures: "a voltage"; null for a word that is no unit.</summary>
    public static string? KindOf(string unit) => Kinds.Where(kind => Array.IndexOf(kind.Units, unit) >= 0).Select(kind => kind.Kind).FirstOrDefault();

    /// <summary>The slip in a quantity that takes one of these units; null when the text is something else.</summary>
    public static Slip? Of(string text, IReadOnlyList<string> units, bool mayBeRange)
    {
        var at = 0;
        if (Number(text, ref at) is not { } low)
            return null;
        var high = mayBeRange ? Upper(text, ref at) : null;
        var written = text.Substring(at).Trim();
        if (Unit(written, units) is not { } unit)
            return null;
        var meant = high is null ? $"{low} {unit}" : $"{low}..{high} {unit}";
        return meant == text || !Units.Quantity.TryNumber(low, out _) ? null : new(Fault(text, written, unit), meant);
    }

    private static string Fault(string text, string written, string unit) =>
        written != unit ? $"`{written}` is not a unit that is read here"
        : text.Contains(",") ? $"`{text}` has a decimal comma"
        : text.IndexOf(' ') < 0 ? $"`{text}` has no blank between number and unit"
        : $"`{text}` is not how a quantity is written";

    // `..18`, ` - 18`, or `m..18` with the unit said twice.
    private static string? Upper(string text, ref int at)
    {
        var ahead = at;
        while (ahead < text.Length && (text[ahead] == ' ' || (char.IsLetter(text[ahead]) && !StartsSign(text, ahead))))
            ahead++;
        var sign = Array.Find(RangeSigns, known => string.CompareOrdinal(text, ahead, known, 0, known.Length) == 0);
        if (sign is null)
            return null;
        ahead += sign.Length;
        while (ahead < text.Length && text[ahead] == ' ')
            ahead++;
        if (Number(text, ref ahead) is not { } high || !Units.Quantity.TryNumber(high, out _))
            return null;
        at = ahead;
        return high;
    }

    private static bool StartsSign(string text, int at) => string.CompareOrdinal(text, at, "to ", 0, 3) == 0;

    private static string? Unit(string written, IReadOnlyList<string> units)
    {
        if (written.Length == 0)
            return null;
        if (units.Contains(written, StringComparer.Ordinal))
            return written;
        foreach (var (spelling, unit) in Spellings)
        {
            if (spelling == written && units.Contains(unit, StringComparer.Ordinal))
                return unit;
        }
        return units.FirstOrDefault(unit => string.Equals(unit, written, StringComparison.OrdinalIgnoreCase));
    }

    private static string? Number(string text, ref int at)
    {
        var start = at < text.Length && text[at] == '+' ? ++at : at;
        if (at < text.Length && text[at] == '-')
            at++;
        var digits = at;
        while (at < text.Length && (text[at] is >= '0' and <= '9' || IsPoint(text, at)))
            at++;
        return at == digits ? null : text.Substring(start, at - start).Replace(',', '.');
    }

    // A point or comma between two digits.
    private static bool IsPoint(string text, int at) =>
        text[at] is '.' or ',' && at > 0 && text[at - 1] is >= '0' and <= '9' && at + 1 < text.Length && text[at + 1] is >= '0' and <= '9';
}
