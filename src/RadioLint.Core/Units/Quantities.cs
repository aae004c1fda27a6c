using System.Globalization;

namespace RadioLint.Units;

// Each quantity is a whole number of its smallest unit, so a limit is compared exactly; text is made by Quantity.Show.

/// <summary>An electric potential in millivolts.</summary>
public readonly record struct Voltage(long Millivolts) : IComparable<Voltage>
{
    public int CompareTo(Voltage other) => Millivolts.CompareTo(other.Millivolts);
    public static bool operator <(Voltage left, Voltage right) => left.Millivolts < right.Millivolts;
    public static bool operator >(Voltage left, Voltage right) => left.Millivolts > right.Millivolts;
    public static bool operator <=(Voltage left, Voltage right) => left.Millivolts <= right.Millivolts;
    public static bool operator >=(Voltage left, Voltage right) => left.Millivolts >= right.Millivolts;
    public static Voltage operator +(Voltage left, Voltage right) => new(left.Millivolts + right.Millivolts);
    public static Voltage operator -(Voltage left, Voltage right) => new(left.Millivolts - right.Millivolts);

    /// <summary>Always in volts, at least one decimal: `3.3 V`.</summary>
    public override string ToString() => Quantity.Fixed(Millivolts, 3, 1) + " V";
}

/// <summary>A current in nanoamperes.</summary>
public readonly record struct Current(long Nanoamperes) : IComparable<Current>
{
    public static Current FromMilliamperes(long value) => new(value * 1_000_000);
    public int CompareTo(Current other) => Nanoamperes.CompareTo(other.Nanoamperes);
    public static bool operator <(Current left, Current right) => left.Nanoamperes < right.Nanoamperes;
    public static bool operator >(Current left, Current right) => left.Nanoamperes > right.Nanoamperes;
    public static bool operator <=(Current left, Current right) => left.Nanoamperes <= right.Nanoamperes;
    public static bool operator >=(Current left, Current right) => left.Nanoamperes >= right.Nanoamperes;
    public static Current operator +(Current left, Current right) => new(left.Nanoamperes + right.Nanoamperes);
    public static Current operator -(Current left, Current right) => new(left.Nanoamperes - right.Nanoamperes);
    public static Current operator *(Current left, int right) => new(left.Nanoamperes * right);

    public override string ToString() => Quantity.Scaled(Nanoamperes, "nA", "uA", "mA", "A");
}

/// <summary>A frequency in hertz.</summary>
public readonly record struct Frequency(long Hertz) : IComparable<Frequency>
{
    public static Frequency FromMegahertz(long value) => new(value * 1_000_000);
    public int CompareTo(Frequency other) => Hertz.CompareTo(other.Hertz);
    public static bool operator <(Frequency left, Frequency right) => left.Hertz < right.Hertz;
    public static bool operator >(Frequency left, Frequency right) => left.Hertz > right.Hertz;
    public static bool operator <=(Frequency left, Frequency right) => left.Hertz <= right.Hertz;
    public static bool operator >=(Frequency left, Frequency right) => left.Hertz >= right.Hertz;
    public static Frequency operator +(Frequency left, Frequency right) => new(left.Hertz + right.Hertz);
    public static Frequency operator -(Frequency left, Frequency right) => new(left.Hertz - right.Hertz);

    public override string ToString() => Quantity.Scaled(Hertz, "Hz", "kHz", "MHz", "GHz");

    /// <summary>In megahertz whatever the size, at least one decimal: `2483.5 MHz`.</summary>
    public string InMegahertz() => Quantity.Fixed(Hertz, 6, 1) + " MHz";
}

/// <summary>A power level in hundredths of a dBm.</summary>
public readonly record struct PowerLevel(int Centi) : IComparable<PowerLevel>
{
    public int CompareTo(PowerLevel other) => Centi.CompareTo(other.Centi);
    public static bool operator <(PowerLevel left, PowerLevel right) => left.Centi < right.Centi;
    public static bool operator >(PowerLevel left, PowerLevel right) => left.Centi > right.Centi;
    public static bool operator <=(PowerLevel left, PowerLevel right) => left.Centi <= right.Centi;
    public static bool operator >=(PowerLevel left, PowerLevel right) => left.Centi >= right.Centi;
    public static PowerLevel operator +(PowerLevel level, Gain gain) => new(level.Centi + gain.Centi);
    public static PowerLevel operator -(PowerLevel level, Gain gain) => new(level.Centi - gain.Centi);
    public static Gain operator -(PowerLevel left, PowerLevel right) => new(left.Centi - right.Centi);

    public override string ToString() => Quantity.Fixed(Centi, 2, 0) + " dBm";
}

/// <summary>A gain or loss in hundredths of a dB; an antenna's is against the isotropic radiator (dBi).</summary>
public readonly record struct Gain(int Centi) : IComparable<Gain>
{
    public int CompareTo(Gain other) => Centi.CompareTo(other.Centi);
    public static bool operator <(Gain left, Gain right) => left.Centi < right.Centi;
    public static bool operator >(Gain left, Gain right) => left.Centi > right.Centi;
    public static bool operator <=(Gain left, Gain right) => left.Centi <= right.Centi;
    public static bool operator >=(Gain left, Gain right) => left.Centi >= right.Centi;
    public static Gain operator +(Gain left, Gain right) => new(left.Centi + right.Centi);
    public static Gain operator -(Gain left, Gain right) => new(left.Centi - right.Centi);

    public override string ToString() => Quantity.Fixed(Centi, 2, 0) + " dB";
}

/// <summary>A length of time in nanoseconds (292 years fit).</summary>
public readonly record struct Duration(long Nanoseconds) : IComparable<Duration>
{
    public static Duration FromMicroseconds(long value) => new(value * 1_000);

    /// <summary>Whole microseconds, cut off.</summary>
    public long Microseconds => Nanoseconds / 1_000;

    public int CompareTo(Duration other) => Nanoseconds.CompareTo(other.Nanoseconds);
    public static bool operator <(Duration left, Duration right) => left.Nanoseconds < right.Nanoseconds;
    public static bool operator >(Duration left, Duration right) => left.Nanoseconds > right.Nanoseconds;
    public static bool operator <=(Duration left, Duration right) => left.Nanoseconds <= right.Nanoseconds;
    public static bool operator >=(Duration left, Duration right) => left.Nanoseconds >= right.Nanoseconds;
    public static Duration operator +(Duration left, Duration right) => new(left.Nanoseconds + right.Nanoseconds);
    public static Duration operator -(Duration left, Duration right) => new(left.Nanoseconds - right.Nanoseconds);
    public static Duration operator *(Duration left, long right) => new(left.Nanoseconds * right);

    /// <summary>In microseconds up to 10 ms, as the data sheets do; longer ones in ms or s.</summary>
    public override string ToString() => Math.Abs(Nanoseconds) switch
    {
        < 1_000 => Quantity.Fixed(Nanoseconds, 0, 0) + " ns",
        < 10_000_000 => Quantity.Fixed(Nanoseconds, 3, 0) + " us",
        < 10_000_000_000 => Quantity.Fixed(Nanoseconds, 6, 0) + " ms",
        _ => Quantity.Fixed(Nanoseconds, 9, 0) + " s",
    };
}

/// <summary>A capacitance in picofarads.</summary>
public readonly record struct Capacitance(long Picofarads) : IComparable<Capacitance>
{
    public int CompareTo(Capacitance other) => Picofarads.CompareTo(other.Picofarads);
    public static bool operator <(Capacitance left, Capacitance right) => left.Picofarads < right.Picofarads;
    public static bool operator >(Capacitance left, Capacitance right) => left.Picofarads > right.Picofarads;
    public static bool operator <=(Capacitance left, Capacitance right) => left.Picofarads <= right.Picofarads;
    public static bool operator >=(Capacitance left, Capacitance right) => left.Picofarads >= right.Picofarads;
    public static Capacitance operator +(Capacitance left, Capacitance right) => new(left.Picofarads + right.Picofarads);

    public override string ToString() => Quantity.Scaled(Picofarads, "pF", "nF", "uF", "mF");
}

/// <summary>A resistance in milliohms.</summary>
public readonly record struct Resistance(long Milliohms)
{
    public override string ToString() => Quantity.Scaled(Milliohms, "mohm", "ohm", "kohm", "Mohm");
}

/// <summary>An inductance in nanohenries.</summary>
public readonly record struct Inductance(long Nanohenries)
{
    public override string ToString() => Quantity.Scaled(Nanohenries, "nH", "uH", "mH", "H");
}

/// <summary>A distance in millimetres.</summary>
public readonly record struct Length(long Millimetres) : IComparable<Length>
{
    public int CompareTo(Length other) => Millimetres.CompareTo(other.Millimetres);
    public static bool operator <(Length left, Length right) => left.Millimetres < right.Millimetres;
    public static bool operator >(Length left, Length right) => left.Millimetres > right.Millimetres;
    public static bool operator <=(Length left, Length right) => left.Millimetres <= right.Millimetres;
    public static bool operator >=(Length left, Length right) => left.Millimetres >= right.Millimetres;

    public override string ToString() => Math.Abs(Millimetres) switch
    {
        < 10 => Quantity.Fixed(Millimetres, 0, 0) + " mm",
        < 1_000 => Quantity.Fixed(Millimetres, 1, 0) + " cm",
        < 1_000_000 => Quantity.Fixed(Millimetres, 3, 0) + " m",
        _ => Quantity.Fixed(Millimetres, 6, 0) + " km",
    };
}

/// <summary>A temperature in hundredths of a degree Celsius.</summary>
public readonly record struct Temperature(int Centi) : IComparable<Temperature>
{
    public int CompareTo(Temperature other) => Centi.CompareTo(other.Centi);
    public static bool operator <(Temperature left, Temperature right) => left.Centi < right.Centi;
    public static bool operator >(Temperature left, Temperature right) => left.Centi > right.Centi;
    public static bool operator <=(Temperature left, Temperature right) => left.Centi <= right.Centi;
    public static bool operator >=(Temperature left, Temperature right) => left.Centi >= right.Centi;

    public override string ToString() => Quantity.Fixed(Centi, 2, 0) + " degC";
}

/// <summary>A battery's charge in microampere-hours.</summary>
public readonly record struct Charge(long MicroampereHours)
{
    public override string ToString() => Quantity.Scaled(MicroampereHours, "uAh", "mAh", "Ah", "kAh");
}

/// <summary>Power that a part turns into heat, in milliwatts.</summary>
public readonly record struct Dissipation(long Milliwatts) : IComparable<Dissipation>
{
    public int CompareTo(Dissipation other) => Milliwatts.CompareTo(other.Milliwatts);
    public static bool operator <(Dissipation left, Dissipation right) => left.Milliwatts < right.Milliwatts;
    public static bool operator >(Dissipation left, Dissipation right) => left.Milliwatts > right.Milliwatts;
    public static bool operator <=(Dissipation left, Dissipation right) => left.Milliwatts <= right.Milliwatts;
    public static bool operator >=(Dissipation left, Dissipation right) => left.Milliwatts >= right.Milliwatts;

    public override string ToString() => Quantity.Scaled(Milliwatts, "mW", "W");
}

/// <summary>A share in millionths.</summary>
public readonly record struct Share(long Millionths)
{
    public override string ToString() => Quantity.Fixed(Millionths, 4, 0) + " %";

    public string InPpm() => Millionths.ToString(CultureInfo.InvariantCulture) + " ppm";
}

/// <summary>The rate of symbols on a serial line.</summary>
public readonly record struct SymbolRate(long Baud)
{
    public override string ToString() => Quantity.Fixed(Baud, 0, 0) + " baud";
}

/// <summary>Two bounds, both inside; a sharply known value has equal ones.</summary>
public readonly record struct Between<T>(T Low, T High)
{
    public bool IsSharp => EqualityComparer<T>.Default.Equals(Low, High);

    public override string ToString() => IsSharp ? $"{Low}" : $"{Low} to {High}";
}
