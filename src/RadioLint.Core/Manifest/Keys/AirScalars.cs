using System.Globalization;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Units;

namespace RadioLint.Manifest.Keys;

/// <summary>How channel, rate, CRC and length are written.</summary>
public static class AirScalars
{
    /// <summary>`0`..`125`, `0x4A` or `2474 MHz`; whether the chip can tune it is RL3001.</summary>
    public static readonly ScalarShape<ChannelSetting> ChannelNumber = new(
        "a channel such as `74`, `0x4A` or `2474 MHz`", ReadChannel, new SchemaForm.AnyOf([new SchemaForm.Whole(), new SchemaForm.Scalar("^(0x[0-9A-Fa-f]{1,2}|[0-9]+( MHz)?)$")]));

    public static readonly ScalarShape<ChannelSetting> ChannelOrOpen =
        Scalars.Words("a channel", ("open", new ChannelSetting(null))).Or(ChannelNumber).Named("a channel such as `74`, `0x4A` or `2474 MHz`, or `open`");

    /// <summary>`12` or `40..60`.</summary>
    public static readonly ScalarShape<ChannelRange> Channels =
        Scalars.Parsed("a channel such as `12` or a range such as `40..60`, 0 to 125", "^[0-9]{1,3}([.][.][0-9]{1,3})?$", ParseChannels).OrWhole();

    public static readonly ScalarShape<RateSetting> RateOrOpen = Scalars.Words(
        "a data rate",
        ("250 kbps", new RateSetting(DataRate.Kbps250)),
        ("1 Mbps", new RateSetting(DataRate.Mbps1)),
        ("2 Mbps", new RateSetting(DataRate.Mbps2)),
        ("open", new RateSetting(null)));

    public static readonly ScalarShape<int> CrcBytes = Scalars.Words("a CRC length", ("none", 0), ("1 byte", 1), ("2 bytes", 2));

    public static readonly ScalarShape<LengthMode> PayloadLengths =
        Scalars.Words("a payload length", ("dynamic", new LengthMode(LengthKind.Dynamic, 0)), ("exact", new LengthMode(LengthKind.Exact, 0)))
            .Or(Quantities.Count("a number such as `16 bytes`", "byte", "bytes").To(n => new LengthMode(LengthKind.Fixed, n)))
            .Named("`dynamic`, `exact` or a number such as `16 bytes`");

    private static ChannelRange? ParseChannels(string text)
    {
        var gap = text.IndexOf("..", StringComparison.Ordinal);
        return Number(gap < 0 ? text : text.Substring(0, gap)) is { } first && Number(gap < 0 ? text : text.Substring(gap + 2)) is { } last && first <= last
            ? new(first, last)
            : null;

        static int? Number(string digits) =>
            digits.Length <= 3 && int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number <= 125 ? number : null;
    }

    private static Finding? ReadChannel(LocatedScalar scalar, out ChannelSetting value)
    {
        value = default;
        var text = scalar.Text;
        if (text.StartsWith("0x", StringComparison.Ordinal))
        {
            if (int.TryParse(text.Substring(2), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var hex) && text.Length <= 6)
            {
                value = new(hex);
                return null;
            }
            return WrongType.At(scalar.Place, $"`{text}`", "a channel such as `74`, `0x4A` or `2474 MHz`");
        }
        if (AmbiguousScalar.IsNumber(scalar))
            return AmbiguousScalar.At(scalar, "a channel number", "it as a plain decimal number or with `0x`");
        if (Quantity.TrySplit(text, out var number, out var unit) && number == Math.Truncate(number) && Math.Abs(number) < 1_000_000)
        {
            if (unit.Length == 0)
                value = new((int)number);
            else if (unit == "MHz")
                value = new((int)number - 2400);
            else
                return WrongType.At(scalar.Place, $"`{text}`", "a channel such as `74`, `0x4A` or `2474 MHz`");
            return null;
        }
        return WrongType.At(scalar.Place, $"`{text}`", "a channel such as `74`, `0x4A` or `2474 MHz`");
    }
}
