using RadioLint.Manifest;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Rules;

/// <summary>Which plain scalars two generations of YAML take for different things.</summary>
public sealed class AmbiguousScalarTests
{
    // YAML 1.1 types int (base 2, 8 and 60, underscores) and float (a dot, and a sign before the exponent) against YAML 1.2.2 section 10.3.2; from memory.
    [Theory]
    [InlineData("010"), InlineData("0990")]
    [InlineData("1_000"), InlineData("9_0"), InlineData("190:20:30"), InlineData("90:09"), InlineData("10:00")]
    [InlineData("0b1010"), InlineData("0o14")]
    [InlineData("1e3"), InlineData("9E09"), InlineData("1.5e3"), InlineData("10e+90")]
    public void Numbers_that_differ(string text) => Assert.True(AmbiguousScalar.IsNumber(Plain(text)));

    // Own choice: both take these for the same number, and the form alone is refused.
    [Theory]
    [InlineData("00"), InlineData("07"), InlineData("1.5e-3"), InlineData("1.5E+3")]
    public void Numbers_of_the_same_forms(string text) => Assert.True(AmbiguousScalar.IsNumber(Plain(text)));

    [Theory]
    [InlineData("12"), InlineData("90"), InlineData("0"), InlineData("7"), InlineData("1.5"), InlineData("0x1F")]
    [InlineData("12 dBm"), InlineData("0a1"), InlineData("1:a"), InlineData("1_x"), InlineData("9/0:1"), InlineData("_1"), InlineData(":1")]
    [InlineData("1e"), InlineData("e1"), InlineData("1e3x"), InlineData("1xe3"), InlineData("1e3:"), InlineData("1 e3"), InlineData("1e/3")]
    public void Texts_and_numbers_that_do_not(string text) => Assert.False(AmbiguousScalar.IsNumber(Plain(text)));

    [Fact]
    public void Quotes_settle_it() => Assert.False(AmbiguousScalar.IsNumber(LocatedScalar.Of(default, "010", isQuoted: true)));

    // YAML 1.1 type bool; from memory.
    [Theory]
    [InlineData("yes", true), InlineData("No", true), InlineData("ON", true), InlineData("off", true), InlineData("y", true), InlineData("N", true)]
    [InlineData("true", false), InlineData("yess", false), InlineData("none", false), InlineData("", false)]
    public void Words(string text, bool differs) => Assert.Equal(differs, AmbiguousScalar.IsTruth(Plain(text)));

    [Theory]
    [InlineData("no", true), InlineData("Off", true), InlineData("n", true), InlineData("yes", false), InlineData("on", false), InlineData("Y", false)]
    public void Which_of_them_are_false(string text, bool isNegative) => Assert.Equal(isNegative, AmbiguousScalar.IsNegative(Plain(text)));

    private static LocatedScalar Plain(string text) => new(default, text);
}
