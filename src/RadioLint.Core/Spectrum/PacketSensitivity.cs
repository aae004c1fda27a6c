using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>
/// From the level at which a data sheet counts bit errors to the level at which packets get through. The longer a packet, the fewer bit errors it may have.
/// </summary>
public static class PacketSensitivity
{
    /// <summary>At which the sensitivity of these chips is stated (nRF24L01+ Product Specification 1.0, Table 7).</summary>
    public static readonly Share StatedBitErrors = new(1_000);

    /// <summary>The share of bit errors at which so many packets are lost: 1 - (1 - lost)^(1/n), each bit for itself (LINK-06 of the worked examples turned round).</summary>
    /// <param name="bits">Behind the preamble, all of which must be right.</param>
    public static double BitErrors(Share lost, int bits) => 1 - Math.Pow(1 - (Within(lost) / 1e6), 1.0 / Math.Max(1, bits));

    /// <summary>
    /// How much more signal than at the stated sensitivity is needed so that no more packets are lost; less than nothing for short packets that may be lost often. Frequency
    /// shift keying without phase reference: bit errors are e^(-s/2) / 2 at a signal s times the noise (a textbook's result; value from memory), so signals are as the
    /// logarithms of twice the bit errors.
    /// </summary>
    public static Gain More(Share lost, int bits) =>
        Decibels.OfPowers(Math.Log(2 * BitErrors(lost, bits)) / Math.Log(2 * StatedBitErrors.Millionths / 1e6));

    /// <summary>The level at which a receiver gets all but so many packets of a length.</summary>
    public static PowerLevel Of(PowerLevel stated, Share lost, int bits) => stated + More(lost, bits);

    // A packet that is never or always lost asks for no level; above 45 % bit errors are no longer few.
    private static long Within(Share lost) => Math.Max(1, Math.Min(450_000, lost.Millionths));
}
