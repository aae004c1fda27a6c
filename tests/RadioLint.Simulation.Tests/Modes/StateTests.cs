using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Modes;

/// <summary>Modes and their times. Places in the nRF24L01+ Product Specification 1.0.</summary>
public class StateTests
{
    /// <summary>Table 16 p24: 1.5 ms from power down to standby.</summary>
    [Fact]
    public void Start_up()
    {
        var pair = new Pair();
        Assert.Equal(ChipState.PowerDown, pair.Sender.State);
        Link.Write(pair.Sender, Register.Config, 0x0A);
        Assert.Equal(ChipState.StartUp, pair.Sender.State);

        pair.Air.Advance(Ticks.Microseconds(1500) - 1);
        Assert.Equal(ChipState.StartUp, pair.Sender.State);
        pair.Air.Advance(Ticks.Microseconds(1500));
        Assert.Equal(ChipState.Standby1, pair.Sender.State);
    }

    /// <summary>Table 16 p24: 130 us from standby to RX; 6.1.4 p23: CE low leads back.</summary>
    [Fact]
    public void Standby_to_receiving()
    {
        var pair = Ready(0x0B);
        pair.Sender.Ce(true, pair.Air.Now);
        pair.Air.AdvanceBy(Ticks.Microseconds(130) - 1);
        Assert.Equal(ChipState.RxSettling, pair.Sender.State);
        pair.Air.AdvanceBy(1);
        Assert.Equal(ChipState.Rx, pair.Sender.State);

        pair.Sender.Ce(false, pair.Air.Now);
        Assert.Equal(ChipState.Standby1, pair.Sender.State);
    }

    /// <summary>Table 15 p24: CE high with nothing to send is standby-II; a payload then starts by itself after 130 us.</summary>
    [Fact]
    public void Standby_2()
    {
        var pair = new Pair().Start();
        pair.Sender.Ce(true, pair.Air.Now);
        Assert.Equal(ChipState.Standby2, pair.Sender.State);
        pair.Air.AdvanceBy(Ticks.PerMillisecond);

        pair.Load(8);
        Assert.Equal(ChipState.TxSettling, pair.Sender.State);
        pair.Air.AdvanceBy(Ticks.Settle);
        Assert.Equal(ChipState.Tx, pair.Sender.State);
        pair.Air.AdvanceBy(Ticks.PerMillisecond);
        Assert.Equal(ChipState.Standby2, pair.Sender.State);
        pair.Sender.Ce(false, pair.Air.Now);
        Assert.Equal(ChipState.Standby1, pair.Sender.State);
    }

    /// <summary>Table 15 p24: CE held high empties the TX FIFO; each new packet settles for 130 us after an acknowledgement.</summary>
    [Fact]
    public void Ce_high_empties_the_fifo()
    {
        var starts = new List<long>();
        var pair = new Pair().Start().Load(8).Load(8).Load(8);
        pair.Air.Sent = packet => starts.Add(packet.Start);
        pair.Sender.Ce(true, pair.Air.Now);
        pair.Air.AdvanceBy(10 * Ticks.PerMillisecond);

        Assert.Equal(6, starts.Count);
        Assert.Equal(Ticks.Microseconds(137 + 130 + 73 + 130), starts[2] - starts[0]);
        Assert.Equal(3, pair.Receiver.RxFifo.Count);
    }

    /// <summary>6.1.5 p23: without acknowledgement it stays in TX: packet after packet, and never above 4 ms.</summary>
    [Theory]
    [InlineData(AirRate.Mbps1, 0)]
    [InlineData(AirRate.Kbps250, 1)]
    public void Packet_after_packet(AirRate rate, int violations)
    {
        var link = new Link { EnAa = 0, Retries = 0, Rate = rate, Length = 32 };
        var starts = new List<long>();
        var pair = new Pair { Link = link }.Start().Load(32).Load(32).Load(32);
        pair.Air.Sent = packet => starts.Add(packet.Start);
        pair.Sender.Ce(true, pair.Air.Now);
        pair.Air.AdvanceBy(Ticks.PerMillisecond * 2);
        pair.Load(32);
        pair.Air.AdvanceBy(Ticks.PerMillisecond * 8);

        Assert.Equal(4, starts.Count);
        Assert.Equal(320L * rate.BitTicks(), starts[1] - starts[0]);
        Assert.Equal(violations, pair.Sender.Violations.Count(each => each.Kind == ViolationKind.LongTransmission));
    }

    /// <summary>Table 16 p24: CE high for 10 us sends one packet, even of several; anything shorter is not stated to, and sends none.</summary>
    [Theory]
    [InlineData(160, 2, 0)]
    [InlineData(159, 0, 1)]
    [InlineData(80, 0, 1)]
    public void Ce_pulse(long ticks, int packets, int violations)
    {
        var pair = new Pair().Start().Load(8).Load(8);
        pair.Sender.Ce(true, pair.Air.Now);
        pair.Sender.Ce(false, pair.Air.Now + ticks);
        pair.Air.AdvanceBy(10 * Ticks.PerMillisecond);

        Assert.Equal(packets, pair.Air.Packets);
        Assert.Equal(violations, pair.Sender.Violations.Count(each => each.Kind == ViolationKind.ShortCePulse));
    }

    /// <summary>6.1.2 p22: registers survive power down; 6.1.5 p23: what is on air is cut off, and nobody takes it.</summary>
    [Fact]
    public void Power_down_in_mid_packet()
    {
        var pair = new Pair().Start().Load(8);
        pair.Sender.Ce(true, pair.Air.Now);
        pair.Air.AdvanceBy(Ticks.Microseconds(200));
        Assert.Equal(ChipState.Tx, pair.Sender.State);
        Link.Write(pair.Sender, Register.Config, 0x0C);
        pair.Air.AdvanceBy(10 * Ticks.PerMillisecond);

        Assert.Equal(ChipState.PowerDown, pair.Sender.State);
        Assert.Equal(74, pair.Sender.Read(Register.RfCh));
        Assert.True(pair.Receiver.RxFifo.IsEmpty);
        Assert.Equal(ViolationKind.WriteWhileBusy, Assert.Single(pair.Sender.Violations).Kind);
    }

    /// <summary>6.1.7 p24: registers are lost with the supply; Table 14 p20: up to 100 ms of reset, in which SPI is not answered.</summary>
    [Fact]
    public void Power_on_reset()
    {
        var pair = new Pair().Start();
        var start = pair.Air.Now;
        pair.Sender.PowerCycle(start);
        Assert.Equal(0, pair.Sender.Transfer(Command.WRegister | Register.RfCh, 40));
        Assert.Equal(ViolationKind.DuringReset, Assert.Single(pair.Sender.Violations).Kind);
        pair.Air.Advance(start + (100 * Ticks.PerMillisecond));

        Assert.Equal(ChipState.PowerDown, pair.Sender.State);
        Assert.Equal(2, pair.Sender.Read(Register.RfCh));
        Assert.Equal(0x0E, pair.Sender.Transfer(Command.WRegister | Register.RfCh, 40));
        Assert.Equal(40, pair.Sender.Read(Register.RfCh));
    }

    /// <summary>Table 20 p51: W_REGISTER is for power down and standby; STATUS is cleared at any time.</summary>
    [Fact]
    public void Writing_while_receiving()
    {
        var pair = new Pair().Start();
        Link.Write(pair.Receiver, Register.Status, StatusFlags.All);
        Assert.Empty(pair.Receiver.Violations);

        Link.Write(pair.Receiver, Register.RxPwP5, 8);
        Assert.Equal(ViolationKind.WriteWhileBusy, Assert.Single(pair.Receiver.Violations).Kind);
    }

    /// <summary>Table 20 p51: the same for every state; standby-II and the waits in standby are allowed.</summary>
    [Fact]
    public void Writing_in_standby()
    {
        var pair = new Pair().Start(receiver: new() { Channel = 10 }).Load(8);
        pair.Sender.Ce(true, pair.Air.Now);
        var seen = new Dictionary<ChipState, int>();
        for (var i = 0; i < 1000; i++)
        {
            var before = pair.Sender.Violations.Count;
            Link.Write(pair.Sender, Register.RxPwP5, 8);
            seen[pair.Sender.State] = pair.Sender.Violations.Count - before;
            pair.Air.AdvanceBy(Ticks.Microseconds(5));
        }

        Assert.Equal(
            [
                (ChipState.Standby2, 0), (ChipState.TxSettling, 1), (ChipState.Tx, 1), (ChipState.AckSettling, 1),
                (ChipState.AckListening, 1), (ChipState.RetryWait, 0),
            ],
            seen.OrderBy(each => each.Key).Select(each => (each.Key, each.Value)));
    }

    /// <summary>6.1.4 p23: a receiver told to rest before it answers does not answer; on air already, it ends first. A choice of the model.</summary>
    [Theory]
    [InlineData(270, 4)]
    [InlineData(396, 4)]
    [InlineData(398, 2)]
    [InlineData(469, 2)]
    public void Rest_while_acknowledging(long microseconds, int packets)
    {
        var pair = new Pair().Start(new() { Retries = 3 }, null).Load(8);
        var start = pair.Air.Now;
        pair.Sender.Ce(true, start);
        pair.Sender.Ce(false, start + Ticks.Microseconds(20));
        pair.Receiver.Ce(false, start + Ticks.Microseconds(microseconds));
        pair.Air.AdvanceBy(10 * Ticks.PerMillisecond);

        // Settling to answer lasts from 267 to 397 us; the answer itself from there to 470 us.
        Assert.Equal(packets, pair.Air.Packets);
        Assert.Equal(ChipState.Standby1, pair.Receiver.State);
    }

    private static Pair Ready(byte config)
    {
        var pair = new Pair();
        Link.Write(pair.Sender, Register.Config, config);
        pair.Air.AdvanceBy(2 * Ticks.PerMillisecond);
        return pair;
    }
}
