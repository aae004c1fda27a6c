using System.Globalization;

namespace Proof;

/// <summary>Scalars of a manifest that matter to the radio.</summary>
internal static class Quantities
{
    /// <summary>`5`, `5 bytes`, `0x05`.</summary>
    public static int Count(string text)
    {
        var first = text.Split(' ')[0];
        return first.StartsWith("0x", StringComparison.Ordinal)
            ? int.Parse(first.AsSpan(2), NumberStyles.HexNumber, CultureInfo.InvariantCulture)
            : int.Parse(first, CultureInfo.InvariantCulture);
    }

    /// <summary>`74`, `0x4A`, `2474 MHz`.</summary>
    public static int Channel(string text) => text.EndsWith(" MHz", StringComparison.Ordinal) ? Count(text) - 2400 : Count(text);

    public static int Crc(string text) => text == "none" ? 0 : Count(text);

    public static int Microseconds(string text) => text.Split(' ') switch
    {
        [var number, "us"] => int.Parse(number, CultureInfo.InvariantCulture),
        [var number, "ms"] => (int)(decimal.Parse(number, CultureInfo.InvariantCulture) * 1000),
        _ => throw new UnjudgedException($"a delay of {text}"),
    };

    public static bool Flag(string text) => text switch { "true" => true, "false" => false, _ => throw new UnjudgedException($"a flag {text}") };
}
