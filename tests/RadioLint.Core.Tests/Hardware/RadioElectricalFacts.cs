using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Hardware;

/// <summary>Radios against facts/radio-electrical.csv: data sheets with table and page in each row.</summary>
public sealed class RadioElectricalFacts
{
    /// <summary>The names skipped have no property: no rule uses them.</summary>
    [Theory]
    [InlineData(
        "nRF24L01+",
        92,
        "C_DVDD C_bulk C_decoupling ESD_HBM ESD_MM IREF_resistor I_TX_average P_D_max P_IM P_TX_max_setting P_TX_range T_storage VDD_typ V_IH_max "
        + "antenna_load crystal_C0 crystal_CL crystal_ESR_max crystal_Ls crystal_load_rule external_clock_amplitude_min")]
    [InlineData("nRF24L01", 28, "")]
    [InlineData("Si24R1", 27, "NO_ACK_polarity P_D_max P_TX_range exposed_pad")]
    public void Every_row_with_a_property_agrees(string name, int exercised, string skipped) =>
        Assert.Equal((exercised, skipped), Comparison.Run("radio-electrical.csv", "quantity", name, row => Find(RadioParts.Find(name)!, row)));

    private static IEnumerable<(Ours Ours, decimal Published)> Find(RadioPart part, PublishedRow row)
    {
        var unit = row["unit"];
        IEnumerable<(Ours, decimal)> One(Ours ours) => [(ours, row.Number("value"))];
        IEnumerable<(Ours, decimal)> Ends(Ours low, Ours high) => [(low, row.Numbers("value")[0]), (high, row.Numbers("value")[^1])];
        var rate = RateIn(row);
        return row["quantity"] switch
        {
            "VDD_min" => One(Ours.Of(SupplyOf(part, row), range => Ours.Volts(range.Low))),
            "VDD_max" => One(Ours.Of(SupplyOf(part, row), range => Ours.Volts(range.High))),
            "VDD" => Ends(Ours.Of(part.Supply.Range, range => Ours.Volts(range.Low)), Ours.Of(part.Supply.Range, range => Ours.Volts(range.High))),
            "VDD_abs_min" => One(Ours.Of(part.Supply.Absolute, range => Ours.Volts(range.Low))),
            "VI_abs_max" => One(Ours.Of(part.Signals.Absolute, range => Ours.Volts(range.High))),
            "VI_abs_min" => One(Ours.Of(part.Signals.Absolute, range => Ours.Volts(range.Low))),
            "V_IH_min" => One(Ours.Of(part.Signals.HighFrom, level => level.OfSupply!.Value.Millionths / 1_000_000m)),
            "V_IL_max" => One(Ours.Of(part.Signals.LowUpTo, level => level.OfSupply!.Value.Millionths / 1_000_000m)),
            "V_OH_min" or "V_OL_max" => One(Ours.Of(part.Signals.OutputDrop)),
            "T_operating" or "T_abs" => Ends(
                Ours.Of(part.Temperature, range => range.Low.Centi / 100m), Ours.Of(part.Temperature, range => range.High.Centi / 100m)),
            "I_power_down" => One(Ours.Of(part.Currents.PowerDown, unit)),
            "I_standby_I" or "I_standby" => One(Ours.Of(part.Currents.Standby, unit)),
            "I_standby_II" or "I_idle_TX" => One(Ours.Of(part.Currents.Standby2, unit)),
            "I_osc_start" => One(Ours.Of(part.Currents.Start, unit)),
            "I_TX_settling" => One(Ours.Of(part.Currents.SettleTransmit, unit)),
            "I_RX_settling" => One(Ours.Of(part.Currents.SettleReceive, unit)),
            "I_TX" => One(DrawAt(part, row, unit)),
            "I_RX" => One(Ours.Of(rate!.Receive, unit)),
            "P_TX" => StepAt(part, row),
            "P_TX_accuracy" => One(Ours.Of(part.PowerAccuracy)),
            "f_range" => Ends(Carrier(part, part.Channel.First), Carrier(part, part.Channel.Last)),
            "f_resolution" => One(Ours.Of(Ours.Megahertz(part.Channel.Step), part.Channel.Origin)),
            "f_deviation" => One(Ours.Of(rate!.Deviation, deviation => deviation.Hertz / 1_000m)),
            "channel_spacing" => row["condition"].Contains("250 kbps", StringComparison.Ordinal)
                ? [.. One(Spacing(part, DataRate.Kbps250)), .. One(Spacing(part, DataRate.Mbps1))]
                : One(Spacing(part, DataRate.Mbps2)),
            "BW_20dB" => [(Ours.Of(rate!.Width, width => width.Hertz / 1_000m), row.Numbers("value")[1])],
            "BW" => One(Ours.Of(rate!.Width, Ours.Megahertz)),
            "RX_sensitivity" => One(Ours.Of(rate!.Sensitivity)),
            "RX_max_signal" => One(Ours.Of(part.StrongestSignal)),
            "P_TX_adjacent_max" => One(SkirtAt(part, rate!, row)),
            "C/I_ETSI" => One(Needed(part.Interference.Blocker, rate!, row)),
            "C/I_same_modulation" => One(Needed(part.Interference.OwnKind, rate!, row)),
            "C/I_clock_penalty" => One(Ours.Of(part.Interference.ClockPenalty)),
            "RPD_threshold" => One(Ours.Of(part.Detector.Level)),
            "RPD_threshold_shift" => [(Ours.Of(part.Detector.Shift), -row.Numbers("value")[0])],
            "crystal_frequency" => One(Ours.Of(part.CrystalFrequency, Ours.Megahertz)),
            "crystal_tolerance_max" => One(ToleranceOf(part, row)),
            "data_rates" when part.Name == "nRF24L01" => part.Rates.Zip(row.Numbers("value"), (ours, published) => (
                new Ours(1_000m / ours.Rate.BitTime().Nanoseconds, "nRF24L01 Product Specification", "read"), published)),
            _ => [],
        };
    }

    private static RadioRate? RateAt(RadioPart part, PublishedRow row) =>
        part.Rates.FirstOrDefault(rate => row["condition"].Split("; ").Any(condition => condition == rate.Rate.InManifest()));

    private static RadioRate? RateIn(PublishedRow row) => RateAt(RadioParts.Find(row["part"])!, row);

    private static Fact<Between<Voltage>> SupplyOf(RadioPart part, PublishedRow row) =>
        row["condition"].StartsWith("operating", StringComparison.Ordinal) ? part.Supply.RangeAt(new(3_600)) : part.Supply.RangeAt(new(3_601));

    // The conditions name the step first, or after "typical": "7 dBm", "typical; VDD 3 V; 0 dBm".
    private static Ours DrawAt(RadioPart part, PublishedRow row, string unit)
    {
        var power = row.Split("condition").Single(condition => condition.Contains("dBm", StringComparison.Ordinal));
        var step = part.Step(new((int)(Published.Numbers(power)[0] * 100)))!;
        return Ours.Of(Ours.In(step.Draws, unit), step.Origin);
    }

    private static IEnumerable<(Ours, decimal)> StepAt(RadioPart part, PublishedRow row)
    {
        var step = part.Step(new((int)(row.Number("value") * 100)));
        Assert.NotNull(step);
        // "RF_PWR = 11" are bits 2:1 of the register, "RF_SETUP[2:0] = 111" bits 2:0.
        var field = row.Split("condition")[0];
        var bits = Convert.ToInt32(field[(field.IndexOf("= ", StringComparison.Ordinal) + 2)..], 2) << (field.StartsWith("RF_PWR", StringComparison.Ordinal) ? 1 : 0);
        // Of a step without a stated current only that is assumed, as its note says.
        var origin = step.Origin.Basis == "assumed" ? step.Origin with { Basis = "read" } : step.Origin;
        return [(Ours.Of(step.Bits, origin), bits)];
    }

    private static Ours Carrier(RadioPart part, int channel) => Ours.Of(Ours.Megahertz(part.Channel.Carrier(channel)), part.Channel.Origin);

    private static Ours Spacing(RadioPart part, DataRate rate) => Ours.Of(part.Rate(rate)!.Spacing, Ours.Megahertz);

    private static Ours SkirtAt(RadioPart part, RadioRate rate, PublishedRow row)
    {
        var offset = Published.Numbers(row.Split("condition")[1])[0];
        var skirt = part.Skirt.Single(each => each.Rate == rate.Rate && Ours.Megahertz(each.Offset) == offset);
        return Ours.Of(skirt.Level.Centi / 100m, skirt.Origin);
    }

    private static Ours Needed(IEnumerable<InterferenceRow> rows, RadioRate rate, PublishedRow row)
    {
        var text = row.Split("condition")[1];
        var offset = text.EndsWith("co-channel", StringComparison.Ordinal) ? 0 : Published.Numbers(text)[0];
        var line = rows.Single(each =>
            each.Rate == rate.Rate && Ours.Megahertz(each.Offset.From) == offset && each.Offset.IsBeyond == text.Contains('>', StringComparison.Ordinal));
        return Ours.Of(line.Needed.Centi / 100m, line.Origin);
    }

    private static Ours ToleranceOf(RadioPart part, PublishedRow row) => row["condition"].Contains("Japan and South Korea", StringComparison.Ordinal)
        ? Ours.Of(part.CrystalToleranceAsked.Single(asked => asked.Countries.SequenceEqual(["JP", "KR"])).Tolerance.Millionths, part.CrystalToleranceAsked[0].Origin)
        : Ours.Of(part.CrystalTolerance, share => share.Millionths);
}
