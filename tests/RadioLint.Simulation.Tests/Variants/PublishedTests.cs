using System.Globalization;
using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Variants;

/// <summary>The model's figures against the published ones of facts/, row by row; each row names its source.</summary>
public class PublishedTests
{
    /// <summary>facts/radio-timing.csv, nRF24L01+.</summary>
    [Theory]
    [InlineData("T_stby2a_max", "us", Ticks.Settle)]
    [InlineData("T_hce_min", "us", Ticks.CePulse)]
    [InlineData("T_pece2csn_min", "us", Ticks.CeToCsn)]
    [InlineData("ARD_step", "us", Ticks.RetryStep)]
    [InlineData("T_TX_continuous_max", "ms", Ticks.LongestTransmission)]
    public void Times(string symbol, string unit, long expected)
    {
        var row = FactTable.Read("radio-timing.csv").Single(each => each["symbol"] == symbol && each["part"] == "nRF24L01+");

        Assert.Equal(unit, row["unit"]);
        Assert.Equal(Number(row["value"]) * (unit == "us" ? Ticks.PerMicrosecond : Ticks.PerMillisecond), expected);
    }

    /// <summary>facts/radio-timing.csv: how long a sender listens for an address.</summary>
    [Theory]
    [InlineData(AirRate.Kbps250, "250 kbps")]
    [InlineData(AirRate.Mbps1, "1 and 2 Mbps")]
    [InlineData(AirRate.Mbps2, "1 and 2 Mbps")]
    public void Window(AirRate rate, string condition)
    {
        var row = FactTable.Read("radio-timing.csv").Single(each =>
            each["symbol"] == "ACK_address_window" && each["source"].StartsWith("D1", StringComparison.Ordinal)
            && each["condition"].EndsWith(condition, StringComparison.Ordinal));

        Assert.Equal(Ticks.Microseconds(long.Parse(row["value"], CultureInfo.InvariantCulture)), rate.AckWindow());
    }

    /// <summary>facts/radio-timing.csv: the fastest SCK, at the lightest load, and the time from power down to standby with a usual crystal.</summary>
    [Fact]
    public void Clock_and_start()
    {
        foreach (var variant in ChipVariants.All)
        {
            var clock = FactTable.Read("radio-timing.csv").Where(each => each["symbol"] == "F_sck_max" && each["part"] == variant.Name);
            Assert.Equal(clock.Max(each => Number(each["value"])), variant.SpiHertz / 1e6);
        }
        var starts = FactTable.Read("radio-timing.csv").Where(each => each["condition"].StartsWith("crystal", StringComparison.Ordinal)).ToList();
        Assert.Equal(1.5, Number(starts.First(each => each["part"] == "nRF24L01+")["value"]));
        Assert.Equal(1.5, Number(starts.Single(each => each["part"] == "nRF24L01")["value"]));
        Assert.Equal(Ticks.Microseconds(1_500), ChipVariants.Plus.StartTicks);
        Assert.Equal(Ticks.Microseconds(1_500), ChipVariants.Earlier.StartTicks);
        Assert.Equal("1.5 to 2", FactTable.Read("radio-timing.csv").Single(each => each["symbol"] == "T_start")["value"]);
        Assert.Equal(Ticks.Microseconds(2_000), ChipVariants.Si24R1.StartTicks);
    }

    /// <summary>facts/radio-electrical.csv: sensitivity of each part at each rate.</summary>
    [Fact]
    public void Sensitivity()
    {
        var count = 0;
        foreach (var row in FactTable.Read("radio-electrical.csv").Where(each => each["quantity"] == "RX_sensitivity"))
        {
            if (ChipVariants.Find(row["part"]) is not { } variant)
                continue;
            var rate = RateIn(row["condition"]);
            Assert.Equal(Number(row["value"]), variant.SensitivityDbm[(int)rate]);
            count++;
        }

        Assert.Equal(8, count);
    }

    /// <summary>facts/radio-electrical.csv: every line of carrier to interferer of both parts that print them.</summary>
    [Fact]
    public void Carrier_to_interferer()
    {
        var counts = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var row in FactTable.Read("radio-electrical.csv").Where(each => each["quantity"] is "C/I_ETSI" or "C/I_same_modulation"))
        {
            var variant = ChipVariants.Find(row["part"])!;
            var table = row["quantity"] == "C/I_ETSI" ? variant.Blocker : variant.OwnKind;
            var at = row["condition"].Split("; ")[1].Replace("interferer offset ", "", StringComparison.Ordinal).Replace(" MHz", "", StringComparison.Ordinal);
            var isBeyond = at.StartsWith("> ", StringComparison.Ordinal);
            var offset = at == "co-channel" ? 0 : int.Parse(at.TrimStart('>', ' '), CultureInfo.InvariantCulture);

            Assert.Contains(new Rejection(RateIn(row["condition"]), offset, isBeyond, (int)Number(row["value"])), table.Rows);
            counts[row["part"]] = counts.GetValueOrDefault(row["part"]) + 1;
        }

        Assert.Equal(ChipVariants.Plus.OwnKind.Rows.Length + ChipVariants.Plus.Blocker.Rows.Length, counts["nRF24L01+"]);
        Assert.Equal(ChipVariants.Earlier.OwnKind.Rows.Length + ChipVariants.Earlier.Blocker.Rows.Length, counts["nRF24L01"]);
    }

    /// <summary>facts/radio-electrical.csv: the level of the detector and the strongest signal that is still received.</summary>
    [Fact]
    public void Levels()
    {
        var rows = FactTable.Read("radio-electrical.csv");
        Assert.Equal(Number(rows.Single(each => each["quantity"] == "RPD_threshold")["value"]), ChipVariants.Plus.DetectorDbm);
        Assert.Equal(Number(rows.Single(each => each["quantity"] == "RX_max_signal")["value"]), ChipVariants.Plus.StrongestDbm);
        Assert.Equal(RejectionTable.ClockPenaltyDb, Number(rows.Single(each => each["quantity"] == "C/I_clock_penalty")["value"]));
    }

    /// <summary>Every document that a row cites is in facts/radio-sources.csv.</summary>
    [Theory]
    [InlineData("radio-timing.csv")]
    [InlineData("radio-electrical.csv")]
    [InlineData("radio-registers.csv")]
    [InlineData("radio-commands.csv")]
    public void Sources(string file)
    {
        var known = FactTable.Read("radio-sources.csv").Select(each => each["code"]).ToHashSet(StringComparer.Ordinal);
        foreach (var row in FactTable.Read(file).Where(each => each["source"] != "from memory"))
            Assert.Contains(row["source"].Split(' ', ';')[0], known);
    }

    private static AirRate RateIn(string condition) => condition switch
    {
        _ when condition.Contains("250 kbps", StringComparison.Ordinal) => AirRate.Kbps250,
        _ when condition.Contains("1 Mbps", StringComparison.Ordinal) => AirRate.Mbps1,
        _ when condition.Contains("2 Mbps", StringComparison.Ordinal) => AirRate.Mbps2,
        _ => throw new ArgumentException($"no rate in '{condition}'", nameof(condition)),
    };

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
