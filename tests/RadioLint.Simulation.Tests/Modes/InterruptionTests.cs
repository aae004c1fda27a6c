using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Modes;

/// <summary>
/// Programs that change their mind in the middle. Where nRF24L01+ Product Specification 1.0 is silent the model's choice is held here, so that
/// it does not change unseen.
/// </summary>
public class InterruptionTests
{
    /// <summary>Who was put on the air first does not matter: the sender listens in the very moment in which the answer begins (Table 16 p24).</summary>
    [Fact]
    public void Order_of_chips()
    {
        var air = new Air();
        var receiver = air.Add(ChipVariants.Plus);
        var sender = air.Add(ChipVariants.Plus);
        new Link().Configure(receiver, isReceiver: true);
        new Link().Configure(sender, isReceiver: false);
        air.AdvanceBy(2 * Ticks.PerMillisecond);
        receiver.Ce(true, air.Now);
        // The first bit of the packet falls into the first moment of listening, too.
        sender.Transfer([Command.WTxPayload, .. Pair.Payload(8)]);
        sender.Ce(true, air.Now);
        air.AdvanceBy(Ticks.Microseconds(470));

        Assert.Equal(StatusFlags.TxDs, sender.Status & StatusFlags.All);
        Assert.Equal((2L, 1), (air.Packets, receiver.RxFifo.Count));
    }

    /// <summary>The preamble must fall into the time of listening whole: a tick later and the packet is missed; its repeat is not.</summary>
    [Fact]
    public void Listening_too_late()
    {
        var pair = new Pair().Start().Load(8);
        pair.Receiver.Ce(false, pair.Air.Now);
        pair.Sender.Ce(true, pair.Air.Now);
        pair.Receiver.Ce(true, pair.Air.Now + 1);
        pair.Air.AdvanceBy(10 * Ticks.PerMillisecond);

        Assert.Equal((3L, 1), (pair.Air.Packets, pair.Receiver.RxFifo.Count));
    }

    /// <summary>Figure 4 p22: PRIM_RX written while a packet is about to go: the chip listens instead.</summary>
    [Fact]
    public void Change_of_role_while_settling()
    {
        var pair = new Pair().Start().Load(8);
        pair.Sender.Ce(true, pair.Air.Now);
        pair.Air.AdvanceBy(Ticks.Microseconds(50));
        Link.Write(pair.Sender, Register.Config, 0x0F);
        Assert.Equal(ChipState.RxSettling, pair.Sender.State);
        pair.Air.AdvanceBy(Ticks.PerMillisecond);

        Assert.Equal(0, pair.Air.Packets);
        Assert.Equal(ChipState.Rx, pair.Sender.State);
    }

    /// <summary>Table 20 p51: FLUSH_TX while a packet is about to go, or to be repeated: nothing goes any more, and no flag is set.</summary>
    [Theory]
    [InlineData(100, 0)]
    [InlineData(700, 1)]
    [InlineData(800, 1)]
    public void Flush_before_sending(long microseconds, int packets)
    {
        var pair = new Pair().Start(receiver: new() { Channel = 10 }).Load(8).Pulse(microseconds);
        pair.Sender.Transfer(Command.FlushTx);
        pair.Air.AdvanceBy(10 * Ticks.PerMillisecond);

        Assert.Equal(packets, pair.Air.Packets);
        Assert.Equal((ChipState.Standby1, 0), (pair.Sender.State, pair.Sender.Status & StatusFlags.All));
    }

    /// <summary>Table 20 p51: FLUSH_TX while a packet is on air: it ends, is acknowledged, and what was loaded meanwhile stays.</summary>
    [Fact]
    public void Flush_while_sending()
    {
        var pair = new Pair().Start().Load(8).Pulse(200);
        pair.Sender.Transfer(Command.FlushTx);
        pair.Load(8);
        pair.Air.AdvanceBy(10 * Ticks.PerMillisecond);

        Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);
        Assert.Equal(1, pair.Sender.TxFifo.Count);
    }

    /// <summary>App. C p78: a carrier needs CE; a pulse too short to see it leaves none.</summary>
    [Fact]
    public void Carrier_without_ce()
    {
        var pair = new Pair().Start();
        Link.Write(pair.Sender, Register.RfSetup, 0x96);
        pair.Pulse(1000);

        Assert.Equal((ChipState.Standby1, 0L), (pair.Sender.State, pair.Air.Packets));
    }

    /// <summary>Figure 4 p22: power down in every state of a transaction leads to power down, and after it all works as before.</summary>
    [Fact]
    public void Power_down_at_any_time()
    {
        for (var microseconds = 0; microseconds < 2500; microseconds += 7)
        {
            var pair = new Pair().Start(receiver: new() { Length = microseconds < 1300 ? 8 : 7 }).Load(8);
            if (microseconds > 0)
                pair.Pulse(Math.Max(20, microseconds));
            foreach (var chip in new[] { pair.Sender, pair.Receiver })
            {
                Link.Write(chip, Register.Config, 0x0C);
                Assert.Equal(ChipState.PowerDown, chip.State);
                chip.Transfer(Command.FlushTx);
                chip.Transfer(Command.FlushRx);
                Link.Write(chip, Register.Status, StatusFlags.All);
            }
            Link.Write(pair.Receiver, Register.RxPwP0 + 1, 8);
            Link.Write(pair.Sender, Register.Config, 0x0E);
            Link.Write(pair.Receiver, Register.Config, 0x0F);
            pair.Air.AdvanceBy(3 * Ticks.PerMillisecond);
            pair.Load(8).Pulse();

            Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);
            Assert.Equal(1, pair.Receiver.RxFifo.Count);
        }
    }

    /// <summary>Table 28 p58: a receiver that changes its channel in the middle of a packet has lost it.</summary>
    [Fact]
    public void Change_of_channel_in_mid_packet()
    {
        var pair = new Pair().Start().Load(8).Pulse(200);
        Link.Write(pair.Receiver, Register.RfCh, 75);
        pair.Air.AdvanceBy(10 * Ticks.PerMillisecond);

        Assert.True(pair.Receiver.RxFifo.IsEmpty);
        Assert.Equal(StatusFlags.MaxRt, pair.Sender.Status & StatusFlags.All);
    }

    /// <summary>nRF24L01 Product Specification 2.0, Table 16 p46: ACTIVATE is for power down and standby.</summary>
    [Fact]
    public void Unlocking_while_receiving()
    {
        var pair = new Pair(receiver: ChipVariants.Earlier).Start();
        pair.Receiver.Transfer(Command.Activate, Command.ActivateKey);

        Assert.Equal(ViolationKind.CommandAtWrongTime, Assert.Single(pair.Receiver.Violations).Kind);
    }

    /// <summary>7.3.3 p28: a plain packet too short to hold a control field is none for a receiver of dynamic length.</summary>
    [Fact]
    public void Packet_shorter_than_a_control_field()
    {
        var plain = new Link { EnAa = 0, Retries = 0, Crc = 0, Width = 3 };
        var pair = new Pair().Start(plain, new() { Width = 3, DynPd = 0x3F, Feature = 0x04 }).Load(1).Pulse();

        Assert.Equal((1L, 0), (pair.Air.Packets, pair.Receiver.Status & StatusFlags.All));
    }

    /// <summary>7.3.3.1 p29: an empty packet is an acknowledgement and nothing else: a receiver on the same address does not take it.</summary>
    [Fact]
    public void Acknowledgements_are_not_for_receivers()
    {
        var dynamic = new Link { DynPd = 0x3F, Feature = 0x04 };
        var pair = new Pair { Link = dynamic };
        var third = pair.Air.Add(ChipVariants.Plus);
        dynamic.Configure(third, isReceiver: true);
        pair.Start().Load(8);
        var start = pair.Air.Now;
        pair.Sender.Ce(true, start);
        third.Ce(true, start + Ticks.Microseconds(200));
        pair.Air.AdvanceBy(10 * Ticks.PerMillisecond);

        Assert.Equal((2L, 1, 0), (pair.Air.Packets, pair.Receiver.RxFifo.Count, third.RxFifo.Count));
    }

    /// <summary>An air without chips lets time pass.</summary>
    [Fact]
    public void Empty_air()
    {
        var air = new Air();
        air.AdvanceBy(5);

        Assert.Equal((5, 0, Ticks.Never), (air.Now, air.Chips.Count, air.NextEvent));
    }
}
