using RadioLint.Hardware;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Hardware;

/// <summary>Front ends against facts/radio-electrical.csv, and what chip and front end do together.</summary>
public sealed class FrontEndFacts
{
    [Theory]
    [InlineData("nRF21540", "nRF21540", 11, "I_PG P_TX_max")]
    [InlineData("RFX2401C", "RFX2401C", 8, "")]
    [InlineData("E01-ML01DP5", "E01-ML01DP5 (nRF24L01+ with RFX2401C)", 9, "")]
    public void Every_row_with_a_property_agrees(string name, string part, int exercised, string skipped) =>
        Assert.Equal((exercised, skipped), Comparison.Run("radio-electrical.csv", "quantity", part, row => Find(FrontEnds.Find(name)!, row)));

    // E01-ML01DP5 module specification, sections 2.1 and 4.1: 20 dBm typical at the strongest step of the chip (0 dBm).
    [Theory]
    [InlineData("E01-ML01DP5", 0, 20)]
    [InlineData("E01-ML01DP5", -6, 19)]
    [InlineData("RFX2401C", 0, 22)]
    [InlineData("RFX2401C", -18, 7)]
    [InlineData("nRF21540", 0, 20)]
    [InlineData("nRF21540", 7, 21.5)]
    public void Output_is_step_and_gain_up_to_saturation(string name, int step, double output) =>
        Assert.Equal(new PowerLevel((int)(output * 100)), FrontEnds.Find(name)!.Output(new(step * 100)));

    // The same specification states 130 mA and 20 mA for chip and front end together; nRF21540's 110 mA and 2.9 mA leave the chip out.
    [Theory]
    [InlineData("RFX2401C", 130_000_000, 20_000_000)]
    [InlineData("E01-ML01DP5", 130_000_000, 20_000_000)]
    [InlineData("nRF21540", 121_300_000, 16_400_000)]
    public void Currents_count_the_chip_once(string name, long sending, long listening)
    {
        var chip = RadioParts.Find("nRF24L01+")!;
        var part = FrontEnds.Find(name)!;
        Assert.Equal(new Current(sending), part.SendingDraw(chip.Step(new(0))!.Draws));
        Assert.Equal(new Current(listening), part.ListeningDraw(chip.Rates[^1].Receive.Value));
    }

    [Fact]
    public void A_module_names_parts_that_exist()
    {
        var module = FrontEnds.Find("E01-ML01DP5")!;
        Assert.True(module.IsModule);
        Assert.NotNull(RadioParts.Find(module.Chip!));
        Assert.False(FrontEnds.Find(module.FrontEndName!)!.IsModule);
        Assert.Equal(["RFX2401C", "nRF21540", "E01-ML01DP5"], FrontEnds.Names);
        Assert.Null(FrontEnds.Find("rfx2401c"));
    }

    private static IEnumerable<(Ours Ours, decimal Published)> Find(FrontEnd part, PublishedRow row)
    {
        var unit = row["unit"];
        var numbers = row.Numbers("value");
        IEnumerable<(Ours, decimal)> One(Ours ours) => [(ours, numbers.Single())];
        IEnumerable<(Ours, decimal)> Ends<T>(Fact<Between<T>> fact, Func<T, decimal> value) =>
            [(Ours.Of(fact, range => value(range.Low)), numbers[0]), (Ours.Of(fact, range => value(range.High)), numbers[^1])];
        return row["quantity"] switch
        {
            "VDD" => Ends(part.Supply, Ours.Volts),
            "G_TX" => One(Ours.Of(part.Gain)),
            "P_sat" => One(Ours.Of(part.Saturation)),
            "I_TX" when part.DrawsAlone is { } alone => [.. Ends(alone, current => Ours.In(current, unit)).Zip(numbers, (pair, number) => (pair.Item1, number))],
            "I_TX" => [.. part.DrawsByOutput.Where(draw => draw.Output.ToString() == row["condition"]).SelectMany(draw => One(Ours.Of(Ours.In(draw.Draws, unit), draw.Origin)))],
            "I_TX_peak" => One(Ours.Of(part.Draws, unit)),
            "G_RX" => One(Ours.Of(part.ReceiveGain)),
            "NF_RX" => One(Ours.Of(part.NoiseFigure)),
            "I_RX" when part.ReceiveAlone is { } alone => Ends(alone, current => Ours.In(current, unit)),
            "I_RX" => One(Ours.Of(part.Receive, unit)),
            "I_PD" or "I_sleep" => One(Ours.Of(part.Sleep, unit)),
            "f_range" => Ends(part.Frequency!, Ours.Megahertz),
            "T_operating" => Ends(part.Temperature!, temperature => temperature.Centi / 100m),
            "P_TX_max" when part.StatedOutput is { } output => [.. Ends(output, level => level.Centi / 100m), (Ours.Of(part.Saturation), numbers[1])],
            "RX_sensitivity" => [(Ours.Of(part.Sensitivity!), numbers[0])],
            "V_logic" => One(Ours.Of(part.Logic)),
            "P_in_max" => One(Ours.Of(part.StrongestSignal!)),
            "supply_margin" => One(Ours.Of(part.SupplyMargin!, share => share.Millionths / 10_000m)),
            _ => [],
        };
    }
}
