using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Hardware;

/// <summary>Radios against facts/radio-timing.csv: data sheets with table and page in each row.</summary>
public sealed class RadioTimingFacts
{
    /// <summary>The names skipped are formulas, times that no rule uses, and for some symbols the rows of superseded documents or other crystals.</summary>
    [Theory]
    [InlineData(
        "nRF24L01+",
        34,
        "ACK_address_window ARD_min ARD_rule T_ACK T_ESB T_IRQ T_OA T_OA_plain T_POR_min T_RPD_valid T_RX_continuous_max T_UL T_cc_min T_cch_min T_cd_max "
        + "T_cdz_max T_ch_min T_cl_min T_csd_max T_dc_min T_dh_min T_fail_max T_pd2stby_max T_pd2stby_rule T_rf_max retry_period_high retry_period_low")]
    [InlineData("nRF24L01", 4, "T_ESB")]
    [InlineData("Si24R1", 4, "")]
    public void Every_row_with_a_property_agrees(string name, int exercised, string skipped) =>
        Assert.Equal((exercised, skipped), Comparison.Run("radio-timing.csv", "symbol", name, row => Find(RadioParts.Find(name)!, row)));

    [Fact]
    public void Nobody_states_the_interrupt_delay_at_250_kbps()
    {
        var row = Published.Rows("radio-timing.csv").Single(each => each["symbol"] == "T_IRQ" && each["condition"].StartsWith("250 kbps", StringComparison.Ordinal));
        Assert.Equal("not given", row["value"]);
        Assert.All(RadioParts.Names, name => Assert.Null(RadioParts.Find(name)!.Rate(DataRate.Kbps250)?.Irq));
    }

    private static IEnumerable<(Ours Ours, decimal Published)> Find(RadioPart part, PublishedRow row)
    {
        var timing = part.Timing;
        // A range's later end is the one to wait for.
        IEnumerable<(Ours, decimal)> Latest(Fact<Duration> ours) => [(Ours.Of(ours, row["unit"]), row.Numbers("value")[^1])];
        var condition = row["condition"];
        return row["symbol"] switch
        {
            "T_PUP_max" => Latest(timing.SupplyRamp),
            "T_POR_max" or "T_POR" or "T_power_on_wait" => Latest(timing.PowerOn),
            "T_pd2stby_max" when condition.Contains("Ls <= 30", StringComparison.Ordinal) || part.Name == "nRF24L01" => Latest(timing.Start),
            "T_pd2stby_max" when condition.Contains("Ls = 90", StringComparison.Ordinal) => Latest(timing.StartSlowest),
            "T_start" => Latest(timing.Start),
            "T_stby2a_max" or "T_stby2a" => Latest(timing.Settle),
            "T_hce_min" => Latest(timing.CePulse),
            "T_pece2csn_min" => Latest(timing.CeToCsn),
            "T_TX_continuous_max" => Latest(timing.TransmitLongest),
            "T_RPD_signal_min" or "T_CD_signal_min" => Latest(timing.Detector),
            "T_cwh_min" => Latest(timing.CsnHigh),
            "T_IRQ" when row["value"] != "not given" => Latest(part.Rates.Single(rate => row.Says("condition", rate.Rate.InManifest())).Irq!),
            "ARD_step" => Latest(part.RetryStep),
            "ARD_min" when !row["source"].StartsWith("D5", StringComparison.Ordinal) => Least(part, row),
            "ACK_address_window" when !row["source"].StartsWith("D5", StringComparison.Ordinal) => part.Rates
                .Where(rate => condition.EndsWith("250 kbps", StringComparison.Ordinal) == (rate.Rate == DataRate.Kbps250))
                .SelectMany(rate => Latest(rate.AckWindow)),
            "F_sck_max" when !condition.StartsWith("Cload", StringComparison.Ordinal) => [(Ours.Of(part.SpiFastest, Ours.Megahertz), row.Number("value"))],
            // Its delays are not on record, so the lines by load count as assumed: the clock alone is compared.
            "F_sck_max" when part.Name == "nRF24L01" => [(Ours.Of(part.SpiFastest, Ours.Megahertz), row.Number("value"))],
            "F_sck_max" => Clock(part, Load(row), row),
            // The greater pull-up gives the shorter delay; the data file keeps the longer one.
            "T_cd_max" when !condition.EndsWith("50 kohm", StringComparison.Ordinal) => Delay(part, row),
            _ => [],
        };
    }

    // "2 Mbps; 5-byte address; ACK payload 16 to 32 bytes": the delay holds at both ends and not beyond them.
    private static IEnumerable<(Ours, decimal)> Least(RadioPart part, PublishedRow row)
    {
        var rate = part.Rates.Single(each => row.Says("condition", each.Rate.InManifest())).Rate;
        var bytes = Published.Numbers(row.Split("condition")[2]);
        foreach (var count in bytes)
        {
            var line = part.LeastRetryDelay(rate, (int)count)!;
            Assert.Equal((bytes[0], bytes[^1]), (line.FromBytes, line.ToBytes));
            yield return (Ours.Of(line.Delay.Microseconds, line.Origin), row.Number("value"));
        }
    }

    private static int Load(PublishedRow row) =>
        (int)Published.Numbers(row.Split("condition").Single(condition => condition.StartsWith("Cload", StringComparison.Ordinal)))[0];

    private static IEnumerable<(Ours, decimal)> Clock(RadioPart part, int load, PublishedRow row)
    {
        var line = part.SpiClockAt(new Capacitance(load))!;
        Assert.Equal(load, line.Load.Picofarads);
        return [(Ours.Of(Ours.Megahertz(line.UpTo), line.Origin), row.Number("value"))];
    }

    private static IEnumerable<(Ours, decimal)> Delay(RadioPart part, PublishedRow row)
    {
        var line = part.SpiClockAt(new Capacitance(Load(row)))!;
        return [(Ours.Of(line.Delay.Nanoseconds, line.Origin), row.Number("value"))];
    }
}
