using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>What a margin is for: the signal differs from place to place and from moment to moment.</summary>
public static class Fading
{
    /// <summary>
    /// Share of places where fading without line of sight takes more than a margin above the mean: 1 - e^(-1/M), M the margin as a ratio of powers (Rayleigh fading,
    /// whose power is exponential; PROP-14 of the worked examples). A margin below nothing is a signal that is too weak already at its mean.
    /// </summary>
    public static Share Outage(Gain margin) =>
        new((long)Math.Round((1 - Math.Exp(-Math.Pow(10, -Math.Max(-5_000, Math.Min(20_000, margin.Centi)) / 1_000.0))) * 1e6, MidpointRounding.AwayFromZero));

    /// <summary>The margin that so few places need more than: <see cref="Outage"/> turned round.</summary>
    /// <param name="outage">Above 0 and below 100 %.</param>
    public static Gain Margin(Share outage) => outage.Millionths is > 0 and < 1_000_000
        ? Decibels.OfPowers(-1 / Math.Log(1 - (outage.Millionths / 1e6)))
        : throw new ArgumentOutOfRangeException(nameof(outage), "a share between 0 and 100 %");
}
