using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Registers;

/// <summary>Payload commands and FIFOs. Places in the nRF24L01+ Product Specification 1.0.</summary>
public class CommandTests
{
    /// <summary>8.4 p55, Table 28 p59, p61: three payloads; TX_FULL and TX_EMPTY follow; a fourth finds no room.</summary>
    [Fact]
    public void Three_payloads_to_send()
    {
        var chip = new Pair().Sender;
        var seen = new List<int> { chip.Read(Register.FifoStatus) };
        for (var i = 0; i < 4; i++)
        {
            chip.Transfer(Command.WTxPayload, 1);
            seen.Add(chip.Read(Register.FifoStatus));
        }

        Assert.Equal([0x11, 0x01, 0x01, 0x21, 0x21], seen);
        Assert.Equal(0x0F, chip.Status);
        Assert.Equal(ViolationKind.FifoFull, Assert.Single(chip.Violations).Kind);
        chip.Transfer(Command.FlushTx);
        Assert.Equal(0x11, chip.Read(Register.FifoStatus));
    }

    /// <summary>Table 20 p51: payloads have 1 to 32 bytes; of more the model keeps 32, since nothing is stated.</summary>
    [Theory]
    [InlineData(0, 0, 1)]
    [InlineData(1, 1, 0)]
    [InlineData(32, 32, 0)]
    [InlineData(33, 32, 1)]
    [InlineData(255, 32, 1)]
    public void Lengths_of_payloads(int bytes, int kept, int violations)
    {
        var chip = new Pair().Sender;
        chip.Transfer([Command.WTxPayload, .. new byte[bytes]]);

        Assert.Equal(kept, chip.TxFifo.IsEmpty ? 0 : chip.TxFifo.Info(0).Length);
        Assert.Equal(violations, chip.Violations.Count(each => each.Kind == ViolationKind.PayloadLength && each.Value == bytes));
    }

    /// <summary>8.4 p55: three payloads received are kept in order; Table 20 p51: reading deletes; a fourth packet is not taken or acknowledged.</summary>
    [Fact]
    public void Three_payloads_received()
    {
        var pair = new Pair().Start();
        for (var i = 1; i <= 4; i++)
        {
            pair.Load([(byte)i, 0, 0, 0, 0, 0, 0, 0]).Pulse();
            Assert.Equal(i < 4 ? StatusFlags.TxDs : StatusFlags.MaxRt, pair.Sender.Status & StatusFlags.All);
            pair.Sender.Transfer(Command.WRegister | Register.Status, StatusFlags.All);
        }
        Assert.Equal(0x12, pair.Receiver.Read(Register.FifoStatus));
        for (var i = 1; i <= 3; i++)
        {
            var miso = new byte[9];
            pair.Receiver.Transfer([Command.RRxPayload, .. new byte[8]], miso);
            Assert.Equal(i, miso[1]);
        }
        Assert.Equal(0x11, pair.Receiver.Read(Register.FifoStatus));
        Assert.Equal(7, (pair.Receiver.Status >> 1) & 7);
        pair.Pulse();
        Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);
        Assert.Equal(4, pair.Receiver.RxFifo.Payload(0)[0]);
    }

    /// <summary>Table 20 p51: a read may stop early, the payload goes all the same; the command byte alone takes nothing.</summary>
    [Fact]
    public void Reading_part_of_a_payload_deletes_it()
    {
        var pair = new Pair().Start().Load(8).Pulse();
        pair.Receiver.Transfer(Command.RRxPayload);
        Assert.False(pair.Receiver.RxFifo.IsEmpty);

        pair.Receiver.Transfer(Command.RRxPayload, 0);
        Assert.True(pair.Receiver.RxFifo.IsEmpty);
    }

    /// <summary>Table 20 p51: FLUSH_RX empties, and breaks an acknowledgement under way.</summary>
    [Fact]
    public void Flush_rx()
    {
        var pair = new Pair().Start().Load(8).Pulse(400);
        Assert.Equal(ChipState.Reply, pair.Receiver.State);
        pair.Receiver.Transfer(Command.FlushRx);

        Assert.True(pair.Receiver.RxFifo.IsEmpty);
        Assert.Equal(ViolationKind.CommandAtWrongTime, Assert.Single(pair.Receiver.Violations).Kind);
    }

    /// <summary>Table 20 p51: the length of the payload at the head; it needs EN_DPL.</summary>
    [Fact]
    public void Width_of_the_head_payload()
    {
        var link = new Link { DynPd = 0x3F, Feature = 0x04 };
        var pair = new Pair { Link = link }.Start().Load(13).Pulse();
        var miso = new byte[2];
        pair.Receiver.Transfer([Command.RRxPlWid, 0], miso);
        Assert.Equal(13, miso[1]);
        Assert.Empty(pair.Receiver.Violations);

        pair.Sender.Transfer(Command.RRxPlWid, 0);
        Assert.Empty(pair.Sender.Violations);
        var other = new Pair().Sender;
        other.Transfer(Command.RRxPlWid, 0);
        Assert.Equal(ViolationKind.FeatureOff, Assert.Single(other.Violations).Kind);
    }

    /// <summary>Table 20 p51, Table 28 p63: two commands need their bit in FEATURE; without it the model lets them do nothing.</summary>
    [Theory]
    [InlineData(Command.WAckPayload, 0x02)]
    [InlineData(Command.WTxPayloadNoAck, 0x01)]
    public void Commands_that_need_a_feature(byte word, byte feature)
    {
        var chip = new Pair().Sender;
        chip.Transfer(word, 1);
        Assert.True(chip.TxFifo.IsEmpty);
        Assert.Equal(ViolationKind.FeatureOff, Assert.Single(chip.Violations).Kind);

        Link.Write(chip, Register.Feature, feature);
        chip.Transfer(word, 1);
        Assert.Equal(1, chip.TxFifo.Count);
        Assert.Single(chip.Violations);
    }

    /// <summary>Table 20 p51: PPP is 000 to 101.</summary>
    [Fact]
    public void There_are_six_pipes_to_answer()
    {
        var chip = new Pair().Sender;
        Link.Write(chip, Register.Feature, 0x02);
        chip.Transfer(Command.WAckPayload | 6, 1);
        chip.Transfer(Command.WAckPayload | 7, 1);

        Assert.True(chip.TxFifo.IsEmpty);
        Assert.Equal([ViolationKind.IllegalCode, ViolationKind.IllegalCode], chip.Violations.Select(each => each.Kind));
    }
}
