using System.Numerics;
using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>What a wall or a pane takes away from a wave that meets it squarely.</summary>
public static class WallLoss
{
    /// <summary>Of one wall by the word of the manifest, at the middle of the band; null for words that are no wall. Metal is a lower bound.</summary>
    public static Gain? Of(string kind) => kind switch
    {
        // 3GPP TR 38.901, Table 7.4.3-1; coated glass by the newest edition, the worse one.
        "concrete wall" => Linear(PathLoss.MidBand, 5, 4),
        "wood wall" => Linear(PathLoss.MidBand, 4.85, 0.12),
        "plywood wall" => Linear(PathLoss.MidBand, 1.03, 0.17),
        "glass" => Linear(PathLoss.MidBand, 2, 0.2),
        // Nobody publishes one figure for a metal wall: it counts as much as the worst of the others, at least.
        "coated glass" or "metal wall" => Linear(PathLoss.MidBand, 25.4, 0.11),
        // ITU-R P.2040-1, Table 3: brick of 110 mm, plasterboard of 12.5 mm.
        "brick wall" => Slab(PathLoss.MidBand, 3.91, 0.0238, 0.16, 0.11),
        "plasterboard wall" => Slab(PathLoss.MidBand, 2.73, 0.0085, 0.9395, 0.0125),
        _ => null,
    };

    /// <summary>a + b f, f in GHz (3GPP TR 38.901, Table 7.4.3-1).</summary>
    public static Gain Linear(Frequency at, double a, double b) => Decibels.Rounded(a + (b * at.Hertz / 1e9));

    /// <summary>
    /// A single slab met squarely: conductivity c f^d in S/m, eta = er - j 17.98 sigma / f, T = (1 - R^2) e^-jq / (1 - R^2 e^-j2q) with f in GHz
    /// (ITU-R P.2040-1; the formula of the slab from memory).
    /// </summary>
    /// <param name="permittivity">Relative, real part.</param>
    /// <param name="thickness">Metres.</param>
    public static Gain Slab(Frequency at, double permittivity, double c, double d, double thickness)
    {
        var gigahertz = at.Hertz / 1e9;
        var index = Complex.Sqrt(new(permittivity, -17.98 * c * Math.Pow(gigahertz, d) / gigahertz));
        var reflected = (1 - index) / (1 + index);
        var phase = 2 * Math.PI * thickness * at.Hertz / 299_792_458 * index;
        var twice = reflected * reflected;
        var through = (1 - twice) * Complex.Exp(-Complex.ImaginaryOne * phase) / (1 - (twice * Complex.Exp(-2 * Complex.ImaginaryOne * phase)));
        return Decibels.OfFields(1 / Complex.Abs(through));
    }
}
