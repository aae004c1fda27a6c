using RadioLint.Rules.Payloads;
using Xunit;

namespace RadioLint.Tests.Rules;

/// <summary>Which exact-width integer is offered in place of one whose width a compiler decides.</summary>
public sealed class CompilerTypesTests
{
    // ISO/IEC 9899:1999 7.18.2.1: the limits of exact-width integer types.
    [Theory]
    [InlineData("0", "255", false, "uint8"), InlineData("0", "256", false, "uint16")]
    [InlineData("0", "65535", false, "uint16"), InlineData("0", "65536", false, "uint32")]
    [InlineData("0", "4294967295", false, "uint32"), InlineData("0", "4294967296", false, "uint64")]
    [InlineData("0", "18446744073709551615", false, "uint64"), InlineData("0", "18446744073709551616", false, null)]
    [InlineData("0", "127", true, "int8"), InlineData("0", "128", true, "int16"), InlineData("-128", "127", true, "int8"), InlineData("-129", "0", true, "int16")]
    [InlineData("-32768", "32767", true, "int16"), InlineData("-32769", "0", true, "int32"), InlineData("0", "32768", true, "int32")]
    [InlineData("-2147483648", "2147483647", true, "int32"), InlineData("0", "2147483648", true, "int64")]
    [InlineData("-9223372036854775808", "9223372036854775807", true, "int64"), InlineData("-9223372036854775809", "0", true, null)]
    // The other kind where it must be.
    [InlineData("-1", "10", false, "int8"), InlineData("-1", "200", false, "int16"), InlineData("0", "18446744073709551615", true, "uint64")]
    public void The_narrowest_that_holds_both(string low, string high, bool isSigned, string? type) =>
        Assert.Equal(type, CompilerTypes.Narrowest(Number(low), Number(high), isSigned));

    [Theory]
    [InlineData("1.25", "0.5", "3"), InlineData("-1.25", "0.5", "-3"), InlineData("1.2", "0.5", "2"), InlineData("7", "2", "4"), InlineData("0", "0.1", "0")]
    // As many counts as a decimal holds, and one step beyond.
    [InlineData("7922816251426433759354395033.5", "0.1", "79228162514264337593543950335"), InlineData("7922816251426433759354395034", "0.1", null)]
    public void Counts_are_rounded_away_from_zero(string value, string scale, string? counts) =>
        Assert.Equal(counts is null ? null : Number(counts), CompilerTypes.Counts(Number(value), Number(scale)));

    private static decimal Number(string text) => decimal.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
}
