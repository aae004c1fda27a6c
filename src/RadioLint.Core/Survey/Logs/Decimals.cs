namespace RadioLint.Survey;

/// <summary>Decimal numbers as programs print them, read without culture and without rounding by floating point.</summary>
internal static class Decimals
{
    private const int MostDigits = 18;

    /// <summary>
    /// A number with point, sign and exponent (`-64`, `2.412e9`), as a whole number of 10^-<paramref name="decimals"/>, cut off after them. False for anything else, and for
    /// what is too large.
    /// </summary>
    public static bool TryRead(string text, int from, int to, int decimals, out long value)
    {
        value = 0;
        var at = from;
        var isNegative = at < to && text[at] == '-';
        if (at < to && text[at] is '-' or '+')
            at++;
        var (digits, fraction, hasPoint, isSeen) = (0, 0, false, false);
        for (; at < to && (text[at] is >= '0' and <= '9' || (text[at] == '.' && !hasPoint)); at++)
        {
            if (text[at] == '.')
            {
                hasPoint = true;
                continue;
            }
            isSeen = true;
            if (digits == MostDigits)
            {
                // Further decimals say nothing that is kept; further digits before the point are too many.
                if (!hasPoint)
                    return false;
                continue;
            }
            value = (value * 10) + (text[at] - '0');
            digits += value == 0 ? 0 : 1;
            fraction += hasPoint ? 1 : 0;
        }
        if (!isSeen || !TryExponent(text, at, to, out var exponent) || !TryScale(ref value, decimals - fraction + exponent))
            return false;
        value = isNegative ? -value : value;
        return true;
    }

    /// <summary>Digits alone.</summary>
    public static bool TryWhole(string text, int from, int to, int most, out int value)
    {
        value = 0;
        for (var at = from; at < to; at++)
        {
            if (text[at] is not (>= '0' and <= '9') || (value = (value * 10) + (text[at] - '0')) > most)
                return false;
        }
        return to > from;
    }

    private static bool TryExponent(string text, int at, int to, out int exponent)
    {
        exponent = 0;
        if (at == to)
            return true;
        if (text[at] is not ('e' or 'E') || ++at == to)
            return false;
        var isNegative = text[at] == '-';
        if (text[at] is '-' or '+')
            at++;
        if (!TryWhole(text, at, to, 99, out exponent))
            return false;
        exponent = isNegative ? -exponent : exponent;
        return true;
    }

    private static bool TryScale(ref long value, int powers)
    {
        for (; powers < 0 && value != 0; powers++)
            value /= 10;
        for (; powers > 0 && value != 0; powers--)
        {
            if (value > long.MaxValue / 10)
                return false;
            value *= 10;
        }
        return true;
    }
}
