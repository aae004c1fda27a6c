using System.Collections.Immutable;
using System.Text;

namespace RadioLint.Readback;

/// <summary>Bytes as hex digits, two a byte.</summary>
internal static class Hex
{
    /// <summary>The bytes in the order of their digits; null when something else stands there.</summary>
    public static ImmutableArray<byte>? Read(string digits)
    {
        if (digits.Length == 0 || digits.Length % 2 != 0)
            return null;
        var bytes = ImmutableArray.CreateBuilder<byte>(digits.Length / 2);
        for (var i = 0; i < digits.Length; i += 2)
        {
            if (Digit(digits[i]) is not (>= 0 and var high) || Digit(digits[i + 1]) is not (>= 0 and var low))
                return null;
            bytes.Add((byte)((high << 4) | low));
        }
        return bytes.MoveToImmutable();
    }

    public static int Digit(char c) => c switch
    {
        >= '0' and <= '9' => c - '0',
        >= 'A' and <= 'F' => c - 'A' + 10,
        >= 'a' and <= 'f' => c - 'a' + 10,
        _ => -1,
    };

    /// <summary>`0x` and the digits of bytes in SPI order as one number: the last byte first, as an address goes on air.</summary>
    public static string Number(IReadOnlyList<byte> spiOrder)
    {
        var text = new StringBuilder("0x");
        for (var i = spiOrder.Count - 1; i >= 0; i--)
            text.Append(Byte(spiOrder[i]), 2, 2);
        return text.ToString();
    }

    public static string Byte(byte one) => FormattableString.Invariant($"0x{one:X2}");
}
