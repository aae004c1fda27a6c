using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Hardware;

/// <summary>What is worked out from a radio's figures, against examples with their source.</summary>
public sealed class RadioPartTests
{
    private static readonly RadioPart Plus = RadioParts.Find("nRF24L01+")!;

    // facts/radio-checks.csv W26 to W28: nRF24L01+ Product Specification v1.0, 6.3 p25.
    [Theory, InlineData("W26"), InlineData("W27"), InlineData("W28")]
    public void Carrier_of_a_channel(string id)
    {
        var example = Published.Example("radio-checks.csv", id);
        Assert.Equal(example.Number("expected"), Ours.Megahertz(Plus.Channel.Carrier(Whole(example, "RF_CH"))));
    }

    // W29 and W30: the same document, Table 6 p15, with a crystal that is exact.
    [Theory, InlineData("W29"), InlineData("W30")]
    public void Occupied_spectrum_of_an_exact_crystal(string id)
    {
        var example = Published.Example("radio-checks.csv", id);
        var used = WithTolerance(0).Occupied(Whole(example, "RF_CH"), RateOf(example.Input("rate")))!.Value;
        Assert.Equal(example.Numbers("expected"), new[] { Ours.Megahertz(used.Low), Ours.Megahertz(used.High) });
    }

    // facts/worked-examples.csv REG-11 to REG-13: 47 CFR 15.249 and EN 300 328 for the edges, Tables 6 and 11 for width and crystal.
    [Theory, InlineData("REG-11"), InlineData("REG-12"), InlineData("REG-13a"), InlineData("REG-13b"), InlineData("REG-14a"), InlineData("REG-14b"), InlineData("REG-14c")]
    public void Channels_inside_a_band(string id)
    {
        var example = Published.Example("worked-examples.csv", id);
        var band = new Between<Frequency>(Megahertz(example.Input("low_mhz")), Megahertz(example.Input("high_mhz")));
        var rate = example.Input("bw_mhz") == "1" ? DataRate.Mbps1 : DataRate.Mbps2;
        var ends = Published.Numbers(example["result"].Replace("..", " ", StringComparison.Ordinal));
        var inside = WithTolerance(Published.Numbers(example.Input("ppm")).Single()).ChannelsInside(band, rate);
        Assert.Equal(Enumerable.Range((int)ends[0], (int)(ends[1] - ends[0]) + 1), inside);
    }

    // W29 with the 60 ppm of Table 11: 2483 MHz x 60 ppm = 148.98 kHz either way.
    [Fact]
    public void Crystal_widens_to_the_hertz()
    {
        Assert.Equal(new Between<Frequency>(new(2_482_351_020), new(2_483_648_980)), Plus.Occupied(83, DataRate.Mbps1));
        var odd = Plus with { CrystalTolerance = Plus.CrystalTolerance with { Value = new(1) }, Channel = Plus.Channel with { Base = new(2_400_000_001) } };
        Assert.Equal(new Between<Frequency>(new(2_399_497_600), new(2_400_502_402)), odd.Occupied(0, DataRate.Mbps1));
    }

    // The nRF24L01 lacks 250 kbps: its Product Specification v2.0, 6.2 p22.
    [Fact]
    public void A_rate_that_the_part_lacks_yields_nothing()
    {
        var earlier = RadioParts.Find("nRF24L01")!;
        Assert.Null(earlier.Rate(DataRate.Kbps250));
        Assert.Null(earlier.Occupied(1, DataRate.Kbps250));
        Assert.Null(earlier.LeastRetryDelay(DataRate.Kbps250, 0));
        Assert.Empty(earlier.ChannelsInside(new(new(0), new(long.MaxValue)), DataRate.Kbps250));
    }

    // W11 to W18: 7.4.2 and Table 18 p34.
    [Theory, InlineData("W11"), InlineData("W12"), InlineData("W13"), InlineData("W14"), InlineData("W15"), InlineData("W16"), InlineData("W17"), InlineData("W18")]
    public void Least_retry_delay(string id)
    {
        var example = Published.Example("radio-checks.csv", id);
        Assert.Equal(example.Number("expected"), Plus.LeastRetryDelay(RateOf(example.Input("rate")), Whole(example, "ack_payload"))!.Delay.Microseconds);
    }

    // Table 28 p60: a payload is 1 to 32 bytes, an acknowledgement's 0 to 32.
    [Theory, InlineData("nRF24L01+"), InlineData("nRF24L01"), InlineData("Si24R1")]
    public void Every_length_has_one_least_delay(string name)
    {
        var part = RadioParts.Find(name)!;
        foreach (var rate in part.Rates)
        {
            for (var bytes = 0; bytes <= 32; bytes++)
                Assert.Single(part.RetryLeast, row => row.Rate == rate.Rate && row.FromBytes <= bytes && bytes <= row.ToBytes);
            Assert.Null(part.LeastRetryDelay(rate.Rate, 33));
            Assert.Null(part.LeastRetryDelay(rate.Rate, -1));
        }
    }

    // W22 to W25: Table 28 p58-59.
    [Theory, InlineData("W22"), InlineData("W23"), InlineData("W24"), InlineData("W25")]
    public void Setup_register(string id)
    {
        var example = Published.Example("radio-checks.csv", id);
        var power = new PowerLevel((int)(Published.Numbers(example.Input("power"))[0] * 100));
        Assert.Equal(Convert.ToByte(example["expected"], 16), Plus.Rate(RateOf(example.Input("rate")))!.Bits | Plus.Step(power)!.Bits);
        Assert.Null(Plus.Step(new(100)));
    }

    // nRF24L01+ Product Specification v1.0, Table 9 p17 and its note a (5 dB worse at multiples of 32 MHz).
    [Theory]
    [InlineData(DataRate.Mbps2, 0, 11)]
    [InlineData(DataRate.Mbps2, 1, 11)]
    [InlineData(DataRate.Mbps2, 3, 4)]
    [InlineData(DataRate.Mbps2, 6, -24)]
    [InlineData(DataRate.Mbps2, 12, -24)]
    [InlineData(DataRate.Mbps2, 13, -40)]
    [InlineData(DataRate.Mbps2, 32, -35)]
    [InlineData(DataRate.Mbps2, 64, -43)]
    [InlineData(DataRate.Kbps250, 5, -39)]
    [InlineData(DataRate.Kbps250, 7, -50)]
    public void Wanted_signal_over_one_of_its_kind(DataRate rate, int megahertz, int decibels) =>
        Assert.Equal(new Gain(decibels * 100), Plus.Interference.NeededAgainstOwnKind(rate, Frequency.FromMegahertz(megahertz)));

    // Tables 22 to 25 p53-54: loads of 5, 10, 50 and 100 pF.
    [Theory, InlineData(1, 10), InlineData(5, 10), InlineData(6, 8), InlineData(30, 5), InlineData(100, 4)]
    public void Clock_of_the_next_higher_load(int picofarads, int megahertz)
    {
        Assert.Equal(Frequency.FromMegahertz(megahertz), Plus.SpiClockAt(new(picofarads))!.UpTo);
        Assert.Null(Plus.SpiClockAt(new(101)));
    }

    [Fact]
    public void Rates_rise_and_steps_fall()
    {
        Assert.Equal(["Si24R1", "nRF24L01", "nRF24L01+"], RadioParts.Names);
        Assert.All(RadioParts.Names.Select(name => RadioParts.Find(name)!), part =>
        {
            Assert.Equal(part.Rates.OrderBy(rate => rate.Rate), part.Rates);
            Assert.Equal(part.PowerSteps.OrderByDescending(step => step.Step), part.PowerSteps);
            Assert.Equal(part.SpiClock.OrderBy(row => row.Load), part.SpiClock);
            Assert.All(part.Rates, rate => Assert.Equal(0, rate.Bits & ~part.SetupRegister.RateMask.Value));
            Assert.All(part.PowerSteps, step => Assert.Equal(0, step.Bits & ~part.SetupRegister.PowerMask.Value));
        });
    }

    [Theory, InlineData("nrf24l01+"), InlineData(""), InlineData("nRF24L01++"), InlineData("../radios/Si24R1")]
    public void Names_are_compared_letter_by_letter(string name) => Assert.Null(RadioParts.Find(name));

    private static RadioPart WithTolerance(decimal ppm) => Plus with { CrystalTolerance = Plus.CrystalTolerance with { Value = new((long)ppm) } };

    private static int Whole(PublishedRow example, string input) => (int)Published.Numbers(example.Input(input)).Single();

    private static Frequency Megahertz(string text) => new((long)(Published.Numbers(text).Single() * 1_000_000));

    private static DataRate RateOf(string text) => text switch { "250k" => DataRate.Kbps250, "1M" => DataRate.Mbps1, _ => DataRate.Mbps2 };
}
