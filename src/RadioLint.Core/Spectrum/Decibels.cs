using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>
/// Where logarithms end: every figure leaves as a whole number of 0.01 dB, rounded half away from zero, so that limits compare exactly and
/// the last bit of a logarithm, which systems work out differently, reaches no output.
/// </summary>
internal static class Decibels
{
    public static Gain Rounded(double decibels) => new((int)Math.Round(Math.Max(-100_000, Math.Min(100_000, decibels)) * 100, MidpointRounding.AwayFromZero));

    /// <summary>10 log of a ratio of powers.</summary>
    public static Gain OfPowers(double ratio) => Rounded(10 * Math.Log10(ratio));

    /// <summary>20 log of a ratio of fields, distances or frequencies.</summary>
    public static Gain OfFields(double ratio) => Rounded(20 * Math.Log10(ratio));

    /// <summary>The ratio of distances or fields behind a figure.</summary>
    public static double Fields(Gain gain) => Math.Pow(10, gain.Centi / 2_000.0);
}
