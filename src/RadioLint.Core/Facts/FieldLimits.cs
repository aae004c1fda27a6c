using System.Numerics;
using RadioLint.Model;

namespace RadioLint.Facts;

/// <summary>What a field of whole numbers can hold, in counts.</summary>
public static class FieldLimits
{
    /// <summary>The least and the greatest count of its type.</summary>
    public static (BigInteger Low, BigInteger High) OfType(Field field)
    {
        var all = BigInteger.One << (field.ItemSize * 8);
        return field.IsSigned ? (-(all / 2), (all / 2) - 1) : (BigInteger.Zero, all - 1);
    }

    /// <summary>The counts whose values lie in the declared range and in the type, rounded inwards; null when there are none.</summary>
    public static (BigInteger Low, BigInteger High)? OfRange(Field field)
    {
        var (least, most) = OfType(field);
        if (field.Range is not var (low, high))
            return null;
        var (from, to) = (BigInteger.Max(least, Counts.AtLeast(low, field.Scale)), BigInteger.Min(most, Counts.AtMost(high, field.Scale)));
        return from <= to ? (from, to) : null;
    }
}
