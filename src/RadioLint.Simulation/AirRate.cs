namespace RadioLint.Simulation;

/// <summary>Data rates on air (nRF24L01+ Product Specification 1.0, 6.2 p25).</summary>
public enum AirRate
{
    Kbps250,
    Mbps1,
    Mbps2,
}

/// <summary>What a rate means in time.</summary>
public static class AirRates
{
    /// <summary>Ticks that one bit lasts: 4 us, 1 us, 0.5 us.</summary>
    public static int BitTicks(this AirRate rate) => rate switch
    {
        AirRate.Kbps250 => 64,
        AirRate.Mbps1 => 16,
        _ => 8,
    };

    /// <summary>
    /// How long a sender listens for an address before it gives up (nRF24L01+ Product Specification 1.0, 7.4.2 p34).
    /// </summary>
    public static long AckWindow(this AirRate rate) => Ticks.Microseconds(rate == AirRate.Kbps250 ? 500 : 250);
}
