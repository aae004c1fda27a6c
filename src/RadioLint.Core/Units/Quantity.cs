using System.Globalization;

namespace RadioLint.Units;

/// <summary>Numbers with units as text, both ways, without culture.</summary>
public static class Quantity
{
    /// <summary>A whole number of 10^-decimals as decimal text, with no more decimals than it needs but at least <paramref name="atLeast"/>.</summary>
    public static string Fixed(long value, int decimals, int atLeast)
    {
        var sign = value < 0 ? "-" : "";
        var digits = Math.Abs((decimal)value).ToString(CultureInfo.InvariantCulture).PadLeft(decimals + 1, '0');
        var whole = digits.Substring(0, digits.Length - decimals);
        var fraction = digits.Substring(digits.Length - decimals).TrimEnd('0').PadRight(Math.Min(atLeast, decimals), '0');
        return fraction.Length == 0 ? sign + whole : $"{sign}{whole}.{fraction}";
    }

    /// <summary>Picks, of units each a thousand times the one before, the largest that leaves a number of at least 1.</summary>
    public static string Scaled(long value, params string[] units)
    {
        var unit = 0;
        for (var size = Math.Abs((decimal)value); size >= 1_000 && unit < units.Length - 1; size /= 1_000)
            unit++;
        return $"{Fixed(value, unit * 3, 0)} {units[unit]}";
    }

    /// <summary>
    /// Splits `12.5 mA` into 12.5 and `mA`. False when the text is not a decimal number, one blank and a unit.
    /// </summary>
    public static bool TrySplit(string text, out decimal number, out string unit)
    {
        unit = "";
        var blank = text.IndexOf(' ');
        if (blank < 0)
            return TryNumber(text, out number);
        unit = text.Substring(blank + 1);
        return TryNumber(text.Substring(0, blank), out number) && unit.Length > 0 && !unit.StartsWith(" ", StringComparison.Ordinal);
    }

    /// <summary>A decimal number as the manifest writes it: digits, at most one point, a leading minus; no exponent, no plus, no leading zeros.</summary>
    public static bool TryNumber(string text, out decimal number)
    {
        number = 0;
        var digits = text.StartsWith("-", StringComparison.Ordinal) ? text.Substring(1) : text;
        if (digits.Length is 0 or > 20 || digits[0] is '.' || digits[digits.Length - 1] is '.' || HasLeadingZero(digits))
            return false;
        foreach (var c in digits)
        {
            if (c is not ((>= '0' and <= '9') or '.'))
                return false;
        }
        return decimal.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out number);
    }

    private static bool HasLeadingZero(string digits) => digits.Length > 1 && digits[0] == '0' && digits[1] != '.';

    /// <summary>a x b / c up to the next whole number; more than a manifest can say is the most that it can.</summary>
    public static long Product(long a, long b, long c)
    {
        // A decimal is exact up to 7.9e28; beyond, nobody counts single units.
        var product = (double)a * b;
        return product / c >= 4e15 ? Whole(decimal.MaxValue)
            : product >= 7e28 ? (long)Math.Ceiling(product / c)
            : (long)decimal.Ceiling((decimal)a * b / c);
    }

    /// <summary>The next whole number, and for more than a manifest can say a number as good as endless.</summary>
    public static long Whole(decimal number) => number >= 4_000_000_000_000_000m ? 4_000_000_000_000_000 : (long)decimal.Round(number);

    /// <summary>The whole number of smallest units; false when it is finer than that or too large to hold.</summary>
    public static bool TryScale(decimal number, decimal perUnit, out long whole)
    {
        whole = 0;
        if (Math.Abs(number) > 1_000_000_000_000m)
            return false;
        var scaled = number * perUnit;
        if (scaled != Math.Truncate(scaled) || Math.Abs(scaled) > 4_000_000_000_000_000_000m)
            return false;
        whole = (long)scaled;
        return true;
    }
}
