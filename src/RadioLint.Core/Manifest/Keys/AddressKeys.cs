using System.Collections.Immutable;
using System.Globalization;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;

namespace RadioLint.Manifest.Keys;

/// <summary>How an address is written: `0x` and the bytes in air order, or text or bytes with the order stated.</summary>
public static class AddressKeys
{
    private const string Expected = "an address such as `0xC2A7D19B33`, first byte on air first";

    public static readonly ScalarShape<WrittenAddress> Hex = new(
        Expected, ReadHex, new SchemaForm.Scalar("^0x([0-9A-Fa-f]{2}){1,8}$"));

    private static readonly Key<string> TextKey = new("text", Scalars.Text, "the address as characters");

    private static readonly Key<ImmutableArray<Stated<int>>> BytesKey =
        new("bytes", new ListShape<int>(new ScalarShape<int>("a byte such as `0x4E`", ReadByte, new SchemaForm.AnyOf([new SchemaForm.Whole(), new SchemaForm.Scalar("^0x[0-9A-Fa-f]{1,2}$")]))), "the address byte by byte");

    private static readonly Key<bool> OrderKey = new(
        "order", Scalars.Words("a byte order", ("register", true), ("air", false)), "`register`: low byte first, as SPI takes it; `air`: first byte on air first")
    { IsRequired = true };

    public static readonly MapShape<WrittenAddress> Map = new("an address", [TextKey, BytesKey, OrderKey], Build);

    public static readonly FormsShape<WrittenAddress> Shape = new(Hex, Map);

    /// <summary>Exactly twice as many digits as bytes, so `0x00C2` keeps its leading zero.</summary>
    public static bool TryHex(string text, out ImmutableArray<byte> bytes)
    {
        bytes = ImmutableArray<byte>.Empty;
        if (!text.StartsWith("0x", StringComparison.Ordinal) || text.Length is < 4 or > 18 || text.Length % 2 != 0)
            return false;
        var read = ImmutableArray.CreateBuilder<byte>((text.Length - 2) / 2);
        for (var i = 2; i < text.Length; i += 2)
        {
            if (!byte.TryParse(text.Substring(i, 2), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var one))
                return false;
            read.Add(one);
        }
        bytes = read.ToImmutable();
        return true;
    }

    private static Finding? ReadHex(LocatedScalar scalar, out WrittenAddress value)
    {
        if (TryHex(scalar.Text, out var bytes))
        {
            value = new(new(bytes), AddressForm.Digits);
            return null;
        }
        value = null!;
        if (AmbiguousScalar.IsNumber(scalar))
            return Digits(scalar.Text) is { } meant ? AmbiguousScalar.Meant(scalar, "an address", meant) : AmbiguousScalar.At(scalar, "an address", "it with `0x` and two digits a byte");
        return Slip(scalar) ?? WrongType.At(scalar.Place, $"`{scalar.Text}`", Expected);
    }

    private static Finding? Slip(LocatedScalar scalar)
    {
        var text = scalar.Text;
        if (Digits(text) is { } meant)
            return WrongType.Meant(scalar, meant == "0x" + text ? $"`{text}` has no `0x` before its digits" : $"`{text}` is not how an address is written", meant);
        if (text.StartsWith("0x", StringComparison.Ordinal) && text.Length % 2 != 0 && text.Skip(2).All(IsHex))
            return WrongType.Because(
                scalar.Place, FormattableString.Invariant($"`{text}` has {text.Length - 2} hexadecimal digits; an address has two for each byte"),
                "write every byte with two digits, leading zeros too");
        return text.Length is >= 3 and <= 5 && text.All(c => c is > ' ' and <= '~')
            ? WrongType.Because(
                scalar.Place, $"`{text}` is not an address in hexadecimal digits",
                $"write `{{ text: {text}, order: register }}` if the program gives the radio these characters")
            : null;
    }

    // `C2A7D19B33`, `c2:a7:d1:9b:33`, `0XC2A7D19B33`: the digits of 3 to 5 bytes.
    private static string? Digits(string text)
    {
        var joined = text.Replace(" ", "").Replace(":", "").Replace("-", "");
        var digits = joined.StartsWith("0x", StringComparison.OrdinalIgnoreCase) ? joined.Substring(2) : joined;
        return digits.Length is 6 or 8 or 10 && digits.All(IsHex) ? "0x" + digits : null;
    }

    private static bool IsHex(char c) => c is (>= '0' and <= '9') or (>= 'a' and <= 'f') or (>= 'A' and <= 'F');

    private static Finding? ReadByte(LocatedScalar scalar, out int value)
    {
        var text = scalar.Text;
        var isHex = text.StartsWith("0x", StringComparison.Ordinal);
        if (!isHex && AmbiguousScalar.IsNumber(scalar))
        {
            value = 0;
            return AmbiguousScalar.At(scalar, "a byte", "it as a plain decimal number or with `0x`");
        }
        var read = isHex
            ? int.TryParse(text.Substring(2), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out value)
            : int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value);
        return read && value is >= 0 and <= 255 ? null : WrongType.At(scalar.Place, $"`{text}`", "a byte such as `0x4E`");
    }

    private static WrittenAddress Build(Settings settings)
    {
        var text = settings.Written(TextKey)?.Value;
        // A character that is no byte stands for one here; RL4008 refuses it.
        var bytes = text?.Select(c => c < 256 ? (byte)c : (byte)'?') ?? settings.Written(BytesKey)?.Value.Select(one => (byte)one.Value) ?? [];
        var isRegisterOrder = settings.Written(OrderKey)?.Value ?? false;
        return new(new(ImmutableArray.CreateRange(isRegisterOrder ? bytes.Reverse() : bytes)), text is null ? AddressForm.Bytes : AddressForm.Text)
        {
            Text = text,
            IsRegisterOrder = isRegisterOrder,
        };
    }
}
