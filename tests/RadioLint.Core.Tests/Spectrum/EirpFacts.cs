using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Spectrum;

/// <summary>Radiated power against worked examples, the standard named in each row, and the chain from step to antenna.</summary>
public sealed class EirpFacts
{
    // REG-07: EIRP = P + G - L of an amplified module, and its excess over 10 dBm (EN 300 328 V2.2.2, 4.3.2.3.3).
    [Fact]
    public void Excess_of_an_amplified_module()
    {
        var example = Published.Example("worked-examples.csv", "REG-07");
        var radiated = Eirp.Of(Level(example, "conducted_dbm"), Gain(example, "gain_dbi"), Gain(example, "cable_db"));
        Assert.Equal(Centi(example.Number("result")), (radiated - Level(example, "ceiling_dbm")).Centi);
        Assert.Equal(2150, radiated.Centi);
    }

    // REG-08: the most that may go into a 2 dBi antenna within 10 dBm EIRP (definition of EIRP).
    [Fact]
    public void Most_that_may_go_into_an_antenna()
    {
        var example = Published.Example("worked-examples.csv", "REG-08");
        var (limit, antenna, cable) = (Level(example, "eirp_dbm"), Gain(example, "gain_dbi"), Gain(example, "cable_db"));
        var most = Eirp.MostConducted(limit, antenna, cable);
        Assert.Equal(Centi(example.Number("result")), most.Centi);
        Assert.Equal(limit, Eirp.Of(most, antenna, cable));
        Assert.Equal(limit.Centi + 1, Eirp.Of(new(most.Centi + 1), antenna, cable).Centi);
    }

    // REG-05, its peak check: 0 dBm and 2 dBi are 2 dBm, within the peak of REG-03 (47 CFR 15.249 (e): 20 dB above the average).
    [Fact]
    public void Peak_of_a_bare_module_in_the_us()
    {
        var example = Published.Example("worked-examples.csv", "REG-05");
        Assert.Contains("peak EIRP=0+2=2 dBm", example["steps"], StringComparison.Ordinal);
        var radiated = Of("radio: { part: nRF24L01+, antenna: 2 dBi }");
        Assert.Equal(200, radiated.Level.Centi);
        var peak = Published.Example("worked-examples.csv", "REG-03").Number("result");
        Assert.Equal(Math.Floor(peak * 100), Bands.For("US").Limit.Centi);
        Assert.True(radiated.Level <= Bands.For("US").Limit);
    }

    // RFX2401C: gain 25 dB, saturated at 22 dBm (values from memory); E01-ML01DP5: 20 dBm (module specification 1.4, 2.1).
    // Steps: nRF24L01+ Product Specification 1.0, Table 5.
    [Theory]
    [InlineData("RFX2401C", "-18 dBm", 700)]
    [InlineData("RFX2401C", "-12 dBm", 1300)]
    [InlineData("RFX2401C", "-6 dBm", 1900)]
    [InlineData("RFX2401C", "0 dBm", 2200)]
    [InlineData("E01-ML01DP5", "-6 dBm", 1900)]
    [InlineData("E01-ML01DP5", "0 dBm", 2000)]
    public void Front_end_adds_its_gain_up_to_its_saturation(string frontEnd, string power, int centi)
    {
        var radiated = Of($"radio: {{ part: nRF24L01+, front-end: {frontEnd}, antenna: 0 dBi }}, power: {power}");
        Assert.Equal(centi, radiated.Level.Centi);
        Assert.False(radiated.IsLowerBound);
    }

    // The same cable and antenna as REG-07 behind the weakest step: -18 + 25 + 2 - 0.5.
    [Fact]
    public void Antenna_and_cable_count()
    {
        var radiated = Of("radio: { part: nRF24L01+, front-end: RFX2401C, antenna: { kind: external, gain: 2 dBi, cable: 0.5 dB } }, power: -18 dBm");
        Assert.Equal(850, radiated.Level.Centi);
        Assert.Equal("-18 dBm at the chip, 7 dBm behind RFX2401C, antenna 2 dBi, cable -0.5 dB", radiated.Steps);
    }

    [Theory, InlineData(""), InlineData("radio: { antenna: external }"), InlineData("radio: { antenna: whip }")]
    public void Unknown_antenna_counts_as_0_dBi_and_says_so(string radio)
    {
        var radiated = Of(radio);
        Assert.Equal((0, true), (radiated.Level.Centi, radiated.IsLowerBound));
        Assert.EndsWith("antenna unknown and counted as 0 dBi", radiated.Steps, StringComparison.Ordinal);
    }

    [Theory, InlineData("none"), InlineData("dummy load")]
    public void Nothing_is_radiated_without_an_antenna(string kind) => Assert.Null(Eirp.Of(Far($"radio: {{ antenna: {kind} }}")));

    private static Eirp Of(string far) => Eirp.Of(Far(far))!;

    private static Node Far(string far) => SmallNetwork.Read(SmallNetwork.With(far: far)).Nodes.Single(node => node.Name == "far");

    private static PowerLevel Level(PublishedRow row, string input) => new(Centi(Published.Numbers(row.Input(input)).Single()));

    private static Gain Gain(PublishedRow row, string input) => new(Centi(Published.Numbers(row.Input(input)).Single()));

    private static int Centi(decimal value) => (int)(value * 100);
}
