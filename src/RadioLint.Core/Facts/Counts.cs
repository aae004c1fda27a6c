using System.Numerics;

namespace RadioLint.Facts;

/// <summary>From values in a field's unit to raw counts, exactly: neither scale nor value has more digits than a decimal holds.</summary>
public static class Counts
{
    /// <summary>The least count whose value is not below; a range's lower end.</summary>
    public static BigInteger AtLeast(decimal value, decimal scale)
    {
        var (numerator, denominator) = Ratio(value, scale);
        return -Floor(-numerator, denominator);
    }

    /// <summary>The greatest count whose value is not above; a range's upper end.</summary>
    public static BigInteger AtMost(decimal value, decimal scale)
    {
        var (numerator, denominator) = Ratio(value, scale);
        return Floor(numerator, denominator);
    }

    /// <summary>The count of exactly this value, or null.</summary>
    public static BigInteger? Exactly(decimal value, decimal scale)
    {
        var (numerator, denominator) = Ratio(value, scale);
        return numerator % denominator == 0 ? numerator / denominator : null;
    }

    /// <summary>The binary32 number nearest to value / scale.</summary>
    public static float Nearest(decimal value, decimal scale)
    {
        var (numerator, denominator) = Ratio(value, scale);
        return (float)((double)numerator / (double)denominator);
    }

    /// <summary>A scale as a fraction in lowest terms.</summary>
    public static (BigInteger Times, BigInteger Over) Fraction(decimal scale)
    {
        var (digits, power) = Parts(scale);
        var common = BigInteger.GreatestCommonDivisor(digits, power);
        return (digits / common, power / common);
    }

    private static (BigInteger Numerator, BigInteger Denominator) Ratio(decimal value, decimal scale)
    {
        var ((above, below), (times, over)) = (Parts(value), Parts(scale));
        return (above * over, below * times);
    }

    private static BigInteger Floor(BigInteger numerator, BigInteger denominator)
    {
        var quotient = BigInteger.DivRem(numerator, denominator, out var rest);
        return rest.Sign < 0 ? quotient - 1 : quotient;
    }

    // A decimal is a whole number of 10^-n.
    private static (BigInteger Digits, BigInteger Power) Parts(decimal value)
    {
        Span<int> bits = stackalloc int[4];
        decimal.GetBits(value, bits);
        var digits = new BigInteger(new decimal(bits[0], bits[1], bits[2], value < 0, 0));
        return (digits, BigInteger.Pow(10, (bits[3] >> 16) & 0xFF));
    }
}
