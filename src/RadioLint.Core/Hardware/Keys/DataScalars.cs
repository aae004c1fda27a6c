using System.Globalization;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Units;

namespace RadioLint.Hardware.Keys;

/// <summary>Scalars that only data files have.</summary>
internal static class DataScalars
{
    private const string OffsetExpected = "an offset such as `2 MHz` or `> 6 MHz`";

    public static readonly ScalarShape<int> Whole = Quantities.Count("a whole number");

    public static readonly ScalarShape<DataRate> Rate = Scalars.Words(
        "a data rate", ("250 kbps", DataRate.Kbps250), ("1 Mbps", DataRate.Mbps1), ("2 Mbps", DataRate.Mbps2));

    /// <summary>`0x0E` or, of a register of five bytes, `0xE7E7E7E7E7`.</summary>
    public static readonly ScalarShape<RegisterValue> Register = new(
        "a register's value such as `0x0E` or `0xE7E7E7E7E7`",
        (LocatedScalar scalar, out RegisterValue value) =>
        {
            value = default;
            var digits = scalar.Text.StartsWith("0x", StringComparison.Ordinal) ? scalar.Text.Substring(2) : "";
            if (digits.Length is not (2 or 10) || !ulong.TryParse(digits, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var bits))
                return WrongType.At(scalar.Place, $"`{scalar.Text}`", "a register's value such as `0x0E` or `0xE7E7E7E7E7`");
            value = new(bits, digits.Length / 2);
            return null;
        },
        new SchemaForm.Scalar("^0x([0-9A-F]{2}|[0-9A-F]{10})$"));

    public static readonly ScalarShape<byte> Byte = new(
        "a byte such as `0x0E`",
        (LocatedScalar scalar, out byte value) =>
        {
            var fault = Register.Read(scalar, out var register);
            value = (byte)register.Bits;
            return fault is null && register.Width == 1 ? null : WrongType.At(scalar.Place, $"`{scalar.Text}`", "a byte such as `0x0E`");
        },
        new SchemaForm.Scalar("^0x[0-9A-F]{2}$"));

    /// <summary>`2 MHz`: at this offset; `> 6 MHz`: beyond it.</summary>
    public static readonly ScalarShape<Offset> Offset = new(
        OffsetExpected,
        (LocatedScalar scalar, out Offset value) =>
        {
            var isBeyond = scalar.Text.StartsWith("> ", StringComparison.Ordinal);
            var text = LocatedScalar.Of(scalar.Place, isBeyond ? scalar.Text.Substring(2) : scalar.Text, scalar.IsQuoted);
            var fault = Quantities.Frequency.Read(text, out var frequency);
            value = new(frequency, isBeyond);
            return fault is null ? null : WrongType.At(scalar.Place, $"`{scalar.Text}`", OffsetExpected);
        },
        new SchemaForm.Scalar("^(> )?[0-9]+([.][0-9]+)? MHz$"));

    /// <summary>`1..7 bytes`, `0 bytes`.</summary>
    public static readonly ScalarShape<Between<int>> Bytes = Span("bytes");

    /// <summary>`0..15`.</summary>
    public static readonly ScalarShape<Between<int>> Wholes = Span("");

    private static ScalarShape<Between<int>> Span(string unit)
    {
        var tail = unit.Length == 0 ? "" : $" {unit}";
        var expected = $"a whole number or range such as `1..7{tail}`";
        return new(
            expected,
            (LocatedScalar scalar, out Between<int> value) =>
            {
                value = default;
                var text = scalar.Text;
                if (!text.EndsWith(tail, StringComparison.Ordinal))
                    return Fault(scalar);
                text = text.Substring(0, text.Length - tail.Length);
                var dots = text.IndexOf("..", StringComparison.Ordinal);
                var (first, last) = dots < 0 ? (text, text) : (text.Substring(0, dots), text.Substring(dots + 2));
                if (!Number(first, out var low) || !Number(last, out var high) || low > high)
                    return Fault(scalar);
                value = new(low, high);
                return null;
            },
            new SchemaForm.Scalar($"^[0-9]+([.][.][0-9]+)?{tail}$"));

        Finding Fault(LocatedScalar scalar) => WrongType.At(scalar.Place, $"`{scalar.Text}`", expected);
    }

    private static bool Number(string text, out int number) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out number);
}
