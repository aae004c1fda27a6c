using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.OnAir;

/// <summary>The received power detector (nRF24L01+ Product Specification 1.0, 6.4 p25) and the carrier of App. C p78.</summary>
public class DetectorTests
{
    /// <summary>W52 of facts/radio-checks.csv: 130 + 40 us after listening was asked for.</summary>
    [Fact]
    public void First_valid_reading()
    {
        var pair = new Pair();
        pair.Air.Add(new Interferer(0, Ticks.Never, 74, -63));
        pair.Link.Configure(pair.Receiver, isReceiver: true);
        pair.Air.AdvanceBy(2 * Ticks.PerMillisecond);
        pair.Receiver.Ce(true, pair.Air.Now);
        pair.Air.AdvanceBy(Ticks.Microseconds(170) - 1);
        Assert.Equal(0, pair.Receiver.Read(Register.Rpd));
        pair.Air.AdvanceBy(1);

        Assert.Equal(1, pair.Receiver.Read(Register.Rpd));
    }

    /// <summary>Above -64 dBm, in the channel, for 40 us.</summary>
    [Theory]
    [InlineData(74, -64.0, 100, 0)]
    [InlineData(74, -63.9, 100, 1)]
    [InlineData(75, -20.0, 100, 0)]
    [InlineData(74, -63.9, 39, 0)]
    [InlineData(74, -63.9, 40, 1)]
    public void Level_channel_and_time(int channel, double dbm, int microseconds, byte expected)
    {
        var pair = new Pair().Start();
        pair.Air.Add(new Interferer(pair.Air.Now, Ticks.Never, channel, dbm));
        pair.Air.AdvanceBy(Ticks.Microseconds(microseconds));

        Assert.Equal(expected, pair.Receiver.Read(Register.Rpd));
    }

    /// <summary>6.4 p25: held when a packet arrives, and when CE ends listening.</summary>
    [Theory]
    [InlineData(40, 1)]
    [InlineData(63, 1)]
    [InlineData(64, 0)]
    public void Held_with_a_packet(int loss, byte expected)
    {
        var pair = new Pair { Link = new() { EnAa = 0, Retries = 0 } };
        pair.Air.Propagation = new PairLoss { Otherwise = loss };
        pair.Start().Load(8).Pulse();
        Assert.Equal(1, pair.Receiver.RxFifo.Count);
        Assert.Equal(expected, pair.Receiver.Read(Register.Rpd));

        pair.Receiver.Ce(false, pair.Air.Now);
        Assert.Equal(expected, pair.Receiver.Read(Register.Rpd));
        pair.Receiver.Ce(true, pair.Air.Now);
        pair.Air.AdvanceBy(Ticks.PerMillisecond);
        Assert.Equal(0, pair.Receiver.Read(Register.Rpd));
    }

    /// <summary>App. C p78: PWR_UP, PRIM_RX 0, CONT_WAVE, PLL_LOCK, CE: a carrier stands until CE falls; the other end's detector sees it.</summary>
    [Fact]
    public void Carrier()
    {
        var pair = new Pair().Start();
        Link.Write(pair.Sender, Register.RfSetup, 0x96);
        pair.Sender.Ce(true, pair.Air.Now);
        pair.Air.AdvanceBy(Ticks.PerMillisecond);
        Assert.Equal(ChipState.Carrier, pair.Sender.State);
        Assert.Equal(1, pair.Receiver.Read(Register.Rpd));

        pair.Sender.Ce(false, pair.Air.Now);
        pair.Air.AdvanceBy(1);
        Assert.Equal(ChipState.Standby1, pair.Sender.State);
        Assert.Equal(0, pair.Receiver.Read(Register.Rpd));
        Assert.Equal(0, pair.Receiver.Status & StatusFlags.All);
    }

    /// <summary>App. C p78: the test bits back at 0, the chip sends packets as before; a carrier of another spoils them (Table 9 p17).</summary>
    [Fact]
    public void Carrier_of_a_third()
    {
        var pair = new Pair();
        var third = pair.Air.Add(ChipVariants.Plus);
        pair.Link.Configure(third, isReceiver: false);
        pair.Start();
        Link.Write(third, Register.RfSetup, 0x96);
        third.Ce(true, pair.Air.Now);
        pair.Load(8).Pulse();
        Assert.Equal(StatusFlags.MaxRt, pair.Sender.Status & StatusFlags.All);

        third.Ce(false, pair.Air.Now);
        Link.Write(pair.Sender, Register.Status, StatusFlags.MaxRt);
        pair.Pulse();
        Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);
    }
}
