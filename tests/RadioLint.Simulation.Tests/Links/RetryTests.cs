using System.Globalization;
using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Links;

/// <summary>Repeats, their times and counters. Places in the nRF24L01+ Product Specification 1.0.</summary>
public class RetryTests
{
    private static readonly Link Deaf = new() { Channel = 10 };

    /// <summary>Both readings of ARD (facts/radio-timing.csv, retry_period_low and retry_period_high): text 7.4.2 p34, figures 17, 19, 20.</summary>
    [Theory]
    [InlineData(RetryReading.Text, 137 + 500)]
    [InlineData(RetryReading.Figures, 137 + 500 + 130)]
    public void Period(RetryReading reading, int expected)
    {
        var starts = new List<long>();
        var pair = new Pair().Start(new() { Retries = 15 }, Deaf).Load(8);
        pair.Sender.RetryReading = reading;
        pair.Air.Sent = packet => starts.Add(packet.Start);
        pair.Pulse();

        Assert.Equal(16, starts.Count);
        Assert.All(starts.Zip(starts.Skip(1)), pairOf => Assert.Equal(Ticks.Microseconds(expected), pairOf.Second - pairOf.First));
    }

    /// <summary>Figure 10 p35, Figure 17 p44; W55 and W56 of facts/radio-checks.csv less the upload: 130 + (ARC+1)(T_OA+ARD) + ARC x 130.</summary>
    [Theory]
    [InlineData("W55", AirRate.Mbps1, 1, RetryReading.Figures, 15376)]
    [InlineData("W55", AirRate.Mbps1, 1, RetryReading.Text, 13426)]
    [InlineData("W56", AirRate.Kbps250, 5, RetryReading.Figures, 47168)]
    [InlineData("W56", AirRate.Kbps250, 5, RetryReading.Text, 45218)]
    public void Time_to_max_rt(string id, AirRate rate, int delay, RetryReading reading, int expected)
    {
        var row = FactTable.Read("radio-checks.csv").Single(each => each["id"] == id);
        Assert.Contains(expected.ToString(CultureInfo.InvariantCulture), row["expected"] + row["steps"], StringComparison.Ordinal);
        const int Upload = 32;
        var pair = new Pair().Start(new() { Rate = rate, Delay = delay, Retries = 15 }, Deaf).Load(32);
        pair.Sender.RetryReading = reading;

        Assert.Equal(expected - Upload, pair.TimeTo(StatusFlags.MaxRt));
    }

    /// <summary>Table 28 p58: ARC 0 to 15 repeats; 7.4.2 p33: MAX_RT after the last.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(15)]
    public void Number_of_repeats(int retries)
    {
        var pair = new Pair().Start(new() { Retries = retries }, Deaf).Load(8).Pulse();

        Assert.Equal(retries + 1, pair.Air.Packets);
        Assert.Equal(0x10 | retries, pair.Sender.Read(Register.ObserveTx));
        Assert.Equal(StatusFlags.MaxRt, pair.Sender.Status & StatusFlags.All);
    }

    /// <summary>Table 28 p58: W19 to W21 of facts/radio-checks.csv; the delay in steps of 250 us.</summary>
    [Theory]
    [InlineData("W19", 1500, 10)]
    [InlineData("W20", 1000, 15)]
    [InlineData("W21", 250, 3)]
    public void Setup_retr(string id, int delay, int retries)
    {
        var row = FactTable.Read("radio-checks.csv").Single(each => each["id"] == id);
        var chip = new Pair().Sender;
        Link.Write(chip, Register.SetupRetr, Convert.ToByte(row["expected"], 16));

        Assert.Equal((Ticks.Microseconds(delay), retries), (chip.Settings.RetryDelay, chip.Settings.Retries));
    }

    /// <summary>Table 28 p59, App. A p75: MAX_RT blocks until it is cleared, the payload stays; then a pulse sends it again (7.8.7 p48).</summary>
    [Fact]
    public void Max_rt_blocks()
    {
        var pair = new Pair().Start(new(), Deaf).Load(8).Pulse();
        Link.Write(pair.Receiver, Register.RfCh, 74);
        pair.Pulse();
        Assert.Equal(4, pair.Air.Packets);
        Assert.Equal(1, pair.Sender.TxFifo.Count);

        Link.Write(pair.Sender, Register.Status, StatusFlags.MaxRt);
        pair.Air.AdvanceBy(Ticks.PerMillisecond);
        Assert.Equal(4, pair.Air.Packets);
        pair.Pulse();
        Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);
        Assert.Equal(6, pair.Air.Packets);
    }

    /// <summary>7.8.7 p48: a toggle of CE starts anew; clearing MAX_RT with CE left high does not.</summary>
    [Fact]
    public void After_max_rt_ce_must_be_toggled()
    {
        var pair = new Pair().Start(new(), Deaf).Load(8);
        pair.Sender.Ce(true, pair.Air.Now);
        pair.Air.AdvanceBy(10 * Ticks.PerMillisecond);
        Link.Write(pair.Sender, Register.Status, StatusFlags.MaxRt);
        pair.Air.AdvanceBy(10 * Ticks.PerMillisecond);
        Assert.Equal(4, pair.Air.Packets);

        pair.Sender.Ce(false, pair.Air.Now);
        pair.Pulse();
        Assert.Equal(8, pair.Air.Packets);
    }

    /// <summary>Table 28 p59: PLOS_CNT stops at 15 and is cleared by writing RF_CH; ARC_CNT is cleared by a new packet.</summary>
    [Fact]
    public void Counters()
    {
        var pair = new Pair().Start(new() { Retries = 2 }, Deaf).Load(8);
        for (var i = 1; i <= 17; i++)
        {
            pair.Pulse();
            Link.Write(pair.Sender, Register.Status, StatusFlags.MaxRt);
            Assert.Equal((Math.Min(i, 15) << 4) | 2, pair.Sender.Read(Register.ObserveTx));
        }
        Link.Write(pair.Sender, Register.RfCh, 10);
        Assert.Equal(0x02, pair.Sender.Read(Register.ObserveTx));

        pair.Pulse();
        Assert.Equal(0x00, pair.Sender.Read(Register.ObserveTx));
        Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);
    }

    /// <summary>
    /// 7.4.2 p34: ARD must hold 130 us and the acknowledgement; W11 to W18 of facts/radio-checks.csv. The model finds the sum; Table 18 and
    /// notes a and d p63 ask for as much or more, so that what is legal always works.
    /// </summary>
    [Theory]
    [InlineData("W11")]
    [InlineData("W12")]
    [InlineData("W13")]
    [InlineData("W14")]
    [InlineData("W15")]
    [InlineData("W16")]
    [InlineData("W17")]
    [InlineData("W18")]
    public void Least_delay_for_a_payload_in_the_acknowledgement(string id)
    {
        var row = FactTable.Read("radio-checks.csv").Single(each => each["id"] == id);
        var inputs = FactTable.Inputs(row["inputs"]);
        var rate = inputs["rate"] switch { "2M" => AirRate.Mbps2, "1M" => AirRate.Mbps1, _ => AirRate.Kbps250 };
        var length = int.Parse(inputs["ack_payload"], CultureInfo.InvariantCulture);
        var sum = double.Parse(row["steps"].Split(" = ")[1].Split(' ')[0], CultureInfo.InvariantCulture);
        var least = Enumerable.Range(0, 16).First(delay => Works(rate, length, delay));

        Assert.Equal(Math.Ceiling(sum / 250) * 250, 250 * (least + 1));
        Assert.True(250 * (least + 1) <= double.Parse(row["expected"], CultureInfo.InvariantCulture));
        Assert.All(Enumerable.Range(least, 16 - least), delay => Assert.True(Works(rate, length, delay)));
    }

    private static bool Works(AirRate rate, int length, int delay)
    {
        var link = new Link { Rate = rate, Delay = delay, Retries = 0, DynPd = 0x3F, Feature = 0x06 };
        var pair = new Pair { Link = link }.Start().Load(4);
        if (length > 0)
            pair.Receiver.Transfer([Command.WAckPayload | 1, .. Pair.Payload(length)]);
        pair.Pulse();
        return (pair.Sender.Status & StatusFlags.All) == (length > 0 ? StatusFlags.TxDs | StatusFlags.RxDr : StatusFlags.TxDs)
            && (length == 0 || pair.Sender.RxFifo.Payload(0).SequenceEqual(Pair.Payload(length)));
    }
}
