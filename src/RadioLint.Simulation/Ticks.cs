namespace RadioLint.Simulation;

/// <summary>Virtual time: whole sixteenths of a microsecond, so that bits of every rate and every figure of the data sheets are whole.</summary>
public static class Ticks
{
    public const long PerMicrosecond = 16;
    public const long PerMillisecond = 1_000 * PerMicrosecond;

    /// <summary>A moment that never comes.</summary>
    public const long Never = long.MaxValue;

    /// <summary>Standby to TX or RX, TX to RX, RX to TX (nRF24L01+ Product Specification 1.0, Table 16 p24: at most; the model always takes it).</summary>
    public const long Settle = 130 * PerMicrosecond;

    /// <summary>CE high, at least (nRF24L01+ Product Specification 1.0, Table 16 p24).</summary>
    public const long CePulse = 10 * PerMicrosecond;

    /// <summary>CE rising to CSN falling, at least (nRF24L01+ Product Specification 1.0, Table 16 p24).</summary>
    public const long CeToCsn = 4 * PerMicrosecond;

    /// <summary>Longest time in TX at one go (nRF24L01+ Product Specification 1.0, 6.1.5 p23).</summary>
    public const long LongestTransmission = 4 * PerMillisecond;

    /// <summary>Step of the retry delay (nRF24L01+ Product Specification 1.0, Table 28 p58).</summary>
    public const long RetryStep = 250 * PerMicrosecond;

    public static long Microseconds(long count) => count * PerMicrosecond;

    public static double ToMicroseconds(long ticks) => ticks / (double)PerMicrosecond;
}
