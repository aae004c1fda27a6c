using RadioLint.Findings;
using RadioLint.Rules.Hygiene;
using RadioLint.Units;

namespace RadioLint.Manifest;

/// <summary>The shapes of numbers with units: `3.3 V`, `12..18 m`.</summary>
public static class Quantities
{
    private static readonly (string Unit, decimal Size)[] Volts = [("V", 1_000), ("mV", 1), ("kV", 1_000_000)];
    private static readonly (string Unit, decimal Size)[] Amperes = [("mA", 1_000_000), ("uA", 1_000), ("A", 1_000_000_000), ("nA", 1)];
    private static readonly (string Unit, decimal Size)[] Hertz = [("MHz", 1_000_000), ("kHz", 1_000), ("GHz", 1_000_000_000), ("Hz", 1)];
    private static readonly (string Unit, decimal Size)[] Times =
    [
        ("ms", 1_000_000), ("us", 1_000), ("s", 1_000_000_000), ("min", 60_000_000_000), ("h", 3_600_000_000_000),
        ("day", 86_400_000_000_000), ("days", 86_400_000_000_000), ("ns", 1),
        ("month", 2_629_800_000_000_000), ("months", 2_629_800_000_000_000),
        ("week", 604_800_000_000_000), ("weeks", 604_800_000_000_000), ("year", 31_557_600_000_000_000), ("years", 31_557_600_000_000_000),
    ];
    private static readonly (string Unit, decimal Size)[] Metres = [("m", 1_000), ("cm", 10), ("mm", 1), ("km", 1_000_000)];

    public static readonly ScalarShape<Voltage> Voltage = Of("a voltage such as `3.3 V`", Volts, n => new Voltage(n));
    public static readonly ScalarShape<Current> Current = Of("a current such as `250 mA`", Amperes, n => new Current(n));
    public static readonly ScalarShape<Frequency> Frequency = Of("a frequency such as `8 MHz`", Hertz, n => new Frequency(n));
    public static readonly ScalarShape<Duration> Duration = Of("a time such as `30 ms`", Times, n => new Duration(n));
    public static readonly ScalarShape<Length> Length = Of("a length such as `12 cm`", Metres, n => new Length(n));

    public static readonly ScalarShape<PowerLevel> PowerLevel =
        Of("a power level such as `-6 dBm`", [("dBm", 100)], n => new PowerLevel((int)n));

    public static readonly ScalarShape<Gain> AntennaGain = Of("a gain such as `2 dBi`", [("dBi", 100)], n => new Gain((int)n));
    public static readonly ScalarShape<Gain> Gain = Of("a number of decibels such as `0.5 dB`", [("dB", 100)], n => new Gain((int)n));

    public static readonly ScalarShape<Capacitance> Capacitance =
        Of("a capacitance such as `10 uF`", [("uF", 1_000_000), ("nF", 1_000), ("pF", 1), ("mF", 1_000_000_000)], n => new Capacitance(n));

    public static readonly ScalarShape<Resistance> Resistance =
        Of("a resistance such as `10 kohm`", [("kohm", 1_000_000), ("ohm", 1_000), ("mohm", 1), ("Mohm", 1_000_000_000)], n => new Resistance(n));

    public static readonly ScalarShape<Inductance> Inductance =
        Of("an inductance such as `10 uH`", [("uH", 1_000), ("nH", 1), ("mH", 1_000_000)], n => new Inductance(n));

    public static readonly ScalarShape<Temperature> Temperature = Of("a temperature such as `40 degC`", [("degC", 100)], n => new Temperature((int)n));

    public static readonly ScalarShape<Charge> Charge =
        Of("a charge such as `2500 mAh`", [("mAh", 1_000), ("Ah", 1_000_000), ("uAh", 1)], n => new Charge(n));

    public static readonly ScalarShape<Share> Share = Of("a share such as `10 %`", [("%", 10_000), ("ppm", 1)], n => new Share(n));
    public static readonly ScalarShape<Dissipation> Dissipation = Of("a dissipation such as `1.2 W`", [("W", 1_000), ("mW", 1)], n => new Dissipation(n));
    public static readonly ScalarShape<SymbolRate> SymbolRate = Of("a serial speed such as `115200 baud`", [("baud", 1)], n => new SymbolRate(n));

    public static readonly ScalarShape<Between<Voltage>> Voltages = RangeOf("a range such as `1.9..3.6 V`", Volts, n => new Voltage(n));
    public static readonly ScalarShape<Between<Length>> Lengths = RangeOf("a length or range such as `12..18 m`", Metres, n => new Length(n));
    public static readonly ScalarShape<Between<Frequency>> Frequencies = RangeOf("a range such as `2400..2483.5 MHz`", Hertz, n => new Frequency(n));
    public static readonly ScalarShape<Between<Current>> Currents = RangeOf("a current or range such as `5..11 mA`", Amperes, n => new Current(n));
    public static readonly ScalarShape<Between<Duration>> Durations = RangeOf("a time or range such as `1..5 ms`", Times, n => new Duration(n));

    public static readonly ScalarShape<Between<Resistance>> Resistances =
        RangeOf("a resistance or range such as `10..40 ohm`", [("ohm", 1_000), ("mohm", 1), ("kohm", 1_000_000)], n => new Resistance(n));

    public static readonly ScalarShape<Between<PowerLevel>> PowerLevels =
        RangeOf("a power level or range such as `19.7..20.2 dBm`", [("dBm", 100)], n => new PowerLevel((int)n));

    public static readonly ScalarShape<Between<Temperature>> Temperatures =
        RangeOf("a temperature range such as `-20..40 degC`", [("degC", 100)], n => new Temperature((int)n));

    /// <summary>A whole number that may be bare or carry its unit: `5` or `5 bytes`.</summary>
    public static ScalarShape<int> Count(string expected, params string[] units) => new(
        expected,
        (LocatedScalar scalar, out int value) =>
        {
            value = 0;
            if (AmbiguousScalar.IsNumber(scalar))
                return AmbiguousScalar.At(scalar, expected, "it as a plain decimal number");
            if (!Quantity.TrySplit(scalar.Text, out var number, out var unit)
                || number != Math.Truncate(number) || Math.Abs(number) > 1_000_000
                || (unit.Length > 0 && !units.Contains(unit, StringComparer.Ordinal)))
            {
                return WrongType.At(scalar.Place, $"`{scalar.Text}`", expected);
            }
            value = (int)number;
            return null;
        },
        new SchemaForm.AnyOf([new SchemaForm.Whole(), new SchemaForm.Scalar(units.Length == 0 ? "^-?[0-9]+$" : $"^-?[0-9]+( ({string.Join("|", units)}))?$")]));

    private static ScalarShape<T> Of<T>(string expected, (string Unit, decimal Size)[] units, Func<long, T> make) => new(
        expected,
        (LocatedScalar scalar, out T value) =>
        {
            var fault = Read(scalar.Text, scalar, expected, units, out var whole);
            value = fault is null ? make(whole) : default!;
            return fault;
        },
        new SchemaForm.Scalar($"^-?[0-9]+([.][0-9]+)? ({UnitPattern(units)})$"));

    private static ScalarShape<Between<T>> RangeOf<T>(string expected, (string Unit, decimal Size)[] units, Func<long, T> make) => new(
        expected,
        (LocatedScalar scalar, out Between<T> value) =>
        {
            var dots = scalar.Text.IndexOf("..", StringComparison.Ordinal);
            if (dots < 0)
            {
                var single = Read(scalar.Text, scalar, expected, units, out var both);
                value = single is null ? new(make(both), make(both)) : default;
                return single is null ? null : SlipIn(scalar.Text, scalar, units, mayBeRange: true) ?? single;
            }
            value = default;
            if (SlipIn(scalar.Text, scalar, units, mayBeRange: true) is { } slip)
                return slip;
            var blank = scalar.Text.IndexOf(' ');
            if (blank < dots)
                return blank < 0 && Quantity.TryNumber(scalar.Text.Substring(dots + 2), out _)
                    ? UnitMissing.At(scalar.Place, scalar.Text, units.Select(unit => unit.Unit))
                    : WrongType.At(scalar.Place, $"`{scalar.Text}`", expected);
            var fault = Read(scalar.Text.Substring(0, dots) + scalar.Text.Substring(blank), scalar, expected, units, out var low)
                ?? Read(scalar.Text.Substring(dots + 2), scalar, expected, units, out _);
            if (fault is not null)
                return fault;
            _ = Read(scalar.Text.Substring(dots + 2), scalar, expected, units, out var high);
            if (low > high)
                return WrongType.At(scalar.Place, $"the range `{scalar.Text}`, which ends below its start,", expected);
            value = new(make(low), make(high));
            return null;
        },
        new SchemaForm.Scalar($"^-?[0-9]+([.][0-9]+)?([.][.]-?[0-9]+([.][0-9]+)?)? ({UnitPattern(units)})$"));

    private static Finding? Read(string text, LocatedScalar scalar, string expected, (string Unit, decimal Size)[] units, out long whole)
    {
        whole = 0;
        if (Quantity.TrySplit(text, out var number, out var unit))
        {
            if (unit.Length == 0)
                return UnitMissing.At(scalar.Place, scalar.Text, units.Select(known => known.Unit));
            foreach (var (name, size) in units)
            {
                if (string.Equals(name, unit, StringComparison.Ordinal))
                    return Quantity.TryScale(number, size, out whole) ? null : OutOfReach(scalar, expected);
            }
            if (SlipIn(text, scalar, units, mayBeRange: false) is { } misspelt)
                return misspelt;
            return Slips.KindOf(unit) is { } kind
                ? WrongType.OtherKind(scalar.Place, scalar.Text, kind, expected)
                : WrongType.At(scalar.Place, $"`{scalar.Text}`", $"{expected} (units: {string.Join(", ", units.Select(known => known.Unit))})");
        }
        return SlipIn(text, scalar, units, mayBeRange: false) ?? WrongType.At(scalar.Place, $"`{scalar.Text}`", expected);
    }

    private static Finding? SlipIn(string text, LocatedScalar scalar, (string Unit, decimal Size)[] units, bool mayBeRange) =>
        Slips.Of(text, [.. units.Select(unit => unit.Unit)], mayBeRange) is { } slip ? UnitMissing.Misspelt(scalar, text, slip) : null;

    private static Finding OutOfReach(LocatedScalar scalar, string expected) =>
        WrongType.At(scalar.Place, $"`{scalar.Text}`, too large or too fine to be meant,", expected);

    private static string UnitPattern((string Unit, decimal Size)[] units) => string.Join("|", units.Select(unit => unit.Unit));
}
