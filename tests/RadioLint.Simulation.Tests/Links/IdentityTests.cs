using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Links;

/// <summary>Copies, packets without acknowledgement, and sending again. Places in the nRF24L01+ Product Specification 1.0.</summary>
public class IdentityTests
{
    private static readonly Link Selective = new() { Feature = 0x01 };

    /// <summary>7.3.3.2 p29: same identity and checksum as before: a copy, acknowledged and discarded. The lost thing is the acknowledgement.</summary>
    [Fact]
    public void A_copy_is_acknowledged_and_dropped()
    {
        var pair = new Pair().Start().Load(8);
        var start = pair.Air.Now;
        pair.Air.Add(new Interferer(start + Ticks.Microseconds(397), start + Ticks.Microseconds(470), 74, -30));
        pair.Pulse();

        Assert.Equal(4, pair.Air.Packets);
        Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);
        Assert.Equal(1, pair.Receiver.RxFifo.Count);
    }

    /// <summary>7.3.3.2 p29: the same payload loaded anew has another identity and is new.</summary>
    [Fact]
    public void The_same_payload_loaded_twice_is_two_packets()
    {
        var pair = new Pair().Start().Load(8).Pulse().Load(8).Pulse();

        Assert.Equal(2, pair.Receiver.RxFifo.Count);
    }

    /// <summary>7.3.3.2 p29: with four packets in between the identity is the same, and only the checksum tells them apart.</summary>
    [Theory]
    [InlineData(0x00, 1)]
    [InlineData(0x01, 2)]
    public void The_identity_repeats_after_four(byte change, int expected)
    {
        var pair = new Pair().Start().Load(1, 2, 3, 4, 5, 6, 7, 8).Pulse();
        Link.Write(pair.Receiver, Register.Config, 0x0D);
        for (var i = 0; i < 3; i++)
        {
            pair.Load(9, 9, 9, 9, 9, 9, 9, (byte)i);
            pair.Sender.Transfer(Command.FlushTx);
        }
        Link.Write(pair.Receiver, Register.Config, 0x0F);
        pair.Air.AdvanceBy(2 * Ticks.PerMillisecond);
        pair.Load((byte)(1 ^ change), 2, 3, 4, 5, 6, 7, 8).Pulse();

        Assert.Equal(expected, pair.Receiver.RxFifo.Count);
        Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);
    }

    /// <summary>7.3.3.3 p29: NO_ACK set: no acknowledgement, the sender is done at once and in standby-I.</summary>
    [Fact]
    public void Without_acknowledgement()
    {
        var pair = new Pair().Start(Selective, new());
        pair.Sender.Transfer([Command.WTxPayloadNoAck, .. Pair.Payload(8)]);

        Assert.Equal(130 + 137, pair.TimeTo(StatusFlags.TxDs));
        Assert.Equal(ChipState.Standby1, pair.Sender.State);
        pair.Air.AdvanceBy(Ticks.PerMillisecond);
        Assert.Equal(1, pair.Air.Packets);
        Assert.Equal(Pair.Payload(8), pair.Receiver.RxFifo.Payload(0).ToArray());
    }

    /// <summary>7.3.3.3 p29, Table 20 p51: without EN_DYN_ACK the model loads nothing; the data sheet says only that the bit is needed.</summary>
    [Fact]
    public void Without_acknowledgement_and_without_the_feature()
    {
        var pair = new Pair().Start();
        pair.Sender.Transfer([Command.WTxPayloadNoAck, .. Pair.Payload(8)]);
        pair.Pulse();

        Assert.Equal(0, pair.Air.Packets);
        Assert.Equal(ViolationKind.FeatureOff, Assert.Single(pair.Sender.Violations).Kind);
    }

    /// <summary>7.3.3.3 p29: one NO_ACK packet, many receivers, no answer from any.</summary>
    [Fact]
    public void Broadcast()
    {
        var pair = new Pair();
        var third = pair.Air.Add(ChipVariants.Plus);
        pair.Link.Configure(third, isReceiver: true);
        pair.Start(Selective, new());
        third.Ce(true, pair.Air.Now);
        pair.Air.AdvanceBy(Ticks.Settle);
        pair.Sender.Transfer([Command.WTxPayloadNoAck, .. Pair.Payload(8)]);
        pair.Pulse();

        Assert.Equal((1, 1, 1L), (pair.Receiver.RxFifo.Count, third.RxFifo.Count, pair.Air.Packets));
    }

    /// <summary>Table 20 p51, 7.4.2 p34: REUSE_TX_PL sends the last payload again, one packet a pulse, until W_TX_PAYLOAD or FLUSH_TX.</summary>
    [Fact]
    public void Sending_again()
    {
        var plain = new Link { EnAa = 0, Retries = 0 };
        var pair = new Pair { Link = plain }.Start().Load(8).Pulse();
        pair.Sender.Transfer(Command.ReuseTxPl);
        Assert.Equal(0x51, pair.Sender.Read(Register.FifoStatus));
        pair.Pulse().Pulse();
        Assert.Equal(3, pair.Air.Packets);
        Assert.All(Enumerable.Range(0, 3), i => Assert.Equal(Pair.Payload(8), pair.Receiver.RxFifo.Payload(i).ToArray()));

        pair.Load(8);
        Assert.Equal(0x01, pair.Sender.Read(Register.FifoStatus));
        pair.Pulse().Pulse();
        Assert.Equal(4, pair.Air.Packets);
        pair.Sender.Transfer(Command.ReuseTxPl);
        pair.Sender.Transfer(Command.FlushTx);
        pair.Pulse();
        Assert.Equal(4, pair.Air.Packets);
    }

    /// <summary>7.4.2 p34: one pulse, one packet, even when CE stays high.</summary>
    [Fact]
    public void Sending_again_with_ce_high()
    {
        var pair = new Pair().Start().Load(8);
        pair.Sender.Transfer(Command.ReuseTxPl);
        pair.Sender.Ce(true, pair.Air.Now);
        pair.Air.AdvanceBy(10 * Ticks.PerMillisecond);

        Assert.Equal(2, pair.Air.Packets);
        Assert.Equal(1, pair.Sender.TxFifo.Count);
        // The identity is that of the payload, so that an acknowledging receiver takes the next for a copy (7.3.3.2 p29).
        pair.Sender.Ce(false, pair.Air.Now);
        pair.Pulse();
        Assert.Equal((4L, 1), (pair.Air.Packets, pair.Receiver.RxFifo.Count));
    }

    /// <summary>App. C p78: REUSE_TX_PL and CONT_WAVE do not go together.</summary>
    [Fact]
    public void Sending_again_is_not_for_carriers()
    {
        var chip = new Pair().Sender;
        Link.Write(chip, Register.RfSetup, 0x96);
        chip.Transfer(Command.ReuseTxPl);

        Assert.Equal(ViolationKind.CommandAtWrongTime, Assert.Single(chip.Violations).Kind);
    }
}
