using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>Stretches of spectrum as rectangles: what a transmission fills, and where two meet.</summary>
public static class Emission
{
    /// <summary>
    /// What a transmission fills: half its width either side of the carrier, and as far as its crystal may be off
    /// (carrier x tolerance). Worked out exactly and rounded outward to whole hertz.
    /// </summary>
    public static Between<Frequency> Around(Frequency carrier, Frequency width, Share tolerance)
    {
        var reach = (width.Hertz / 2m) + ((decimal)carrier.Hertz * tolerance.Millionths / 1_000_000m);
        return new(new((long)decimal.Floor(carrier.Hertz - reach)), new((long)decimal.Ceiling(carrier.Hertz + reach)));
    }

    /// <summary>True when nothing of it lies outside; an edge that touches is inside.</summary>
    public static bool IsInside(this Between<Frequency> used, Between<Frequency> band) => used.Low >= band.Low && used.High <= band.High;
}
