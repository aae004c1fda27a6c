using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>How sure an estimated share is.</summary>
internal static class Confidence
{
    // Standard normal, two-sided 95 %.
    private const double Normal = 1.959964;

    /// <summary>Student's t, two-sided 95 %, by its expansion in 1/freedom (Abramowitz and Stegun 26.7.5; from memory); off by less than 1 % from 4 on.</summary>
    public static double Student(int freedom)
    {
        double z = Normal, z3 = z * z * z, z5 = z3 * z * z, z7 = z5 * z * z, f = Math.Max(2, freedom);
        return z + ((z3 + z) / (4 * f)) + (((5 * z5) + (16 * z3) + (3 * z)) / (96 * f * f)) + (((3 * z7) + (19 * z5) + (17 * z3) - (15 * z)) / (384 * f * f * f));
    }

    /// <summary>
    /// The 95 % interval of a share by Wilson's formula (E. B. Wilson, 1927; from memory), with as many independent samples as would have the
    /// variance that the estimate has.
    /// </summary>
    /// <param name="independent">Samples if all were independent: the most that can count.</param>
    public static (double Low, double High) Interval(Estimate share, double independent)
    {
        var p = Math.Max(0, Math.Min(1, share.Value));
        var n = share.Variance > 0 ? Math.Min(independent, p * (1 - p) / share.Variance) : independent;
        if (n <= 0)
            return (0, 1);
        var t = Student(share.Freedom);
        var middle = (p + (t * t / (2 * n))) / (1 + (t * t / n));
        var half = t / (1 + (t * t / n)) * Math.Sqrt((p * (1 - p) / n) + (t * t / (4 * n * n)));
        return (Math.Max(0, middle - half), Math.Min(1, middle + half));
    }

    /// <summary>As a whole number of millionths, where the last bit of a square root no longer shows.</summary>
    public static Share Rounded(double share) => new((long)Math.Round(Math.Max(0, Math.Min(1, share)) * 1e6, MidpointRounding.AwayFromZero));
}
