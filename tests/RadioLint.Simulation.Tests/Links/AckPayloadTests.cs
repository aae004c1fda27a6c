using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Links;

/// <summary>Payloads that ride back in acknowledgements. Places in the nRF24L01+ Product Specification 1.0.</summary>
public class AckPayloadTests
{
    private static readonly Link Both = new() { DynPd = 0x3F, Feature = 0x06 };

    /// <summary>
    /// 7.8.4 p47, Figure 21: RX_DR at the receiver, TX_DS and RX_DR at the sender, on pipe 0; TX_DS at the receiver with the next new packet.
    /// </summary>
    [Fact]
    public void Single_transaction()
    {
        var pair = new Pair { Link = Both }.Start().Load(8);
        Answer(pair, 1, 0xA1, 0xA2);
        pair.Pulse();
        Assert.Equal(StatusFlags.TxDs | StatusFlags.RxDr, pair.Sender.Status & StatusFlags.All);
        Assert.Equal(0, (pair.Sender.Status >> 1) & 7);
        Assert.Equal([0xA1, 0xA2], pair.Sender.RxFifo.Payload(0).ToArray());
        Assert.Equal(StatusFlags.RxDr, pair.Receiver.Status & StatusFlags.All);
        Assert.Equal(1, pair.Receiver.TxFifo.Count);

        pair.Load(8).Pulse();
        Assert.Equal(StatusFlags.TxDs | StatusFlags.RxDr, pair.Receiver.Status & StatusFlags.All);
        Assert.True(pair.Receiver.TxFifo.IsEmpty);
        Assert.Equal(1, pair.Sender.RxFifo.Count);
        Assert.Empty(pair.Receiver.Violations);
    }

    /// <summary>7.8.6 p48, Figure 23: when the acknowledgement is lost, the copy is dropped and the same payload goes again.</summary>
    [Fact]
    public void First_acknowledgement_lost()
    {
        var pair = new Pair { Link = Both }.Start().Load(8);
        Answer(pair, 1, 0xA1);
        var start = pair.Air.Now;
        // The answer to the first sending lasts from 130 + 137 + 130 us for 81 us.
        pair.Air.Add(new Interferer(start + Ticks.Microseconds(400), start + Ticks.Microseconds(470), 74, -30));
        pair.Pulse();

        Assert.Equal(4, pair.Air.Packets);
        Assert.Equal(1, pair.Receiver.RxFifo.Count);
        Assert.Equal([0xA1], pair.Sender.RxFifo.Payload(0).ToArray());
        Assert.Equal(0x01, pair.Sender.Read(Register.ObserveTx));
        Assert.Equal(StatusFlags.RxDr, pair.Receiver.Status & StatusFlags.All);
    }

    /// <summary>7.4.1 p33: payloads of one pipe go first in first out, and each pipe has its own.</summary>
    [Fact]
    public void The_right_payload_for_the_pipe()
    {
        var pair = new Pair { Link = Both }.Start();
        Answer(pair, 2, 0xB1);
        Answer(pair, 1, 0xA1);
        Answer(pair, 1, 0xA2);
        for (var i = 0; i < 3; i++)
            pair.Load(8).Pulse();

        Assert.Equal([0xA1, 0xA2], Enumerable.Range(0, pair.Sender.RxFifo.Count).Select(i => (int)pair.Sender.RxFifo.Payload(i)[0]));
        Assert.Equal(1, pair.Receiver.TxFifo.Count);
        Assert.Equal(2, pair.Receiver.TxFifo.Info(0).Pipe);
    }

    /// <summary>7.4.1 p33: three for a peer that is lost block the FIFO; FLUSH_TX frees it.</summary>
    [Fact]
    public void Payloads_for_a_lost_peer()
    {
        var pair = new Pair { Link = Both }.Start();
        for (var i = 0; i < 3; i++)
            Answer(pair, 2, (byte)i);
        Answer(pair, 1, 0xA1);
        Assert.Equal(ViolationKind.FifoFull, Assert.Single(pair.Receiver.Violations).Kind);
        pair.Load(8).Pulse();
        Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);

        pair.Receiver.Transfer(Command.FlushTx);
        Answer(pair, 1, 0xA1);
        pair.Load(8).Pulse();
        Assert.Equal([0xA1], pair.Sender.RxFifo.Payload(0).ToArray());
    }

    /// <summary>7.4.1 p33, Table 28 p62-63 and note d: EN_ACK_PAY and dynamic length on the pipe and on pipe 0 at the receiver; else it goes empty.</summary>
    [Theory]
    [InlineData(0x3F, 0x04)]
    [InlineData(0x3E, 0x06)]
    public void Receiver_without_what_it_takes(byte dynPd, byte feature)
    {
        var pair = new Pair().Start(Both, Both with { DynPd = dynPd, Feature = feature }).Load(8);
        Answer(pair, 1, 0xA1);
        pair.Pulse();

        Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);
        Assert.True(pair.Sender.RxFifo.IsEmpty);
    }

    /// <summary>Table 28 note d p63: without dynamic length on its pipe 0 a sender expects an empty acknowledgement and takes no other.</summary>
    [Fact]
    public void Sender_without_dynamic_length()
    {
        var sender = Both with { DynPd = 0x3E };
        var pair = new Pair().Start(sender, Both with { DynPd = 0x3D, Length = 8 }).Load(8).Pulse();
        Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);

        pair = new Pair().Start(Both, Both);
        Link.Write(pair.Sender, Register.Feature, 0x00);
        Link.Write(pair.Receiver, Register.RxPwP0 + 1, 8);
        Answer(pair, 1, 0xA1);
        pair.Load(8).Pulse();
        Assert.Equal(StatusFlags.MaxRt, pair.Sender.Status & StatusFlags.All);
    }

    /// <summary>Table 28 p63: without EN_ACK_PAY at the sender the payload is dropped, a choice of the model; the acknowledgement counts.</summary>
    [Fact]
    public void Sender_without_ack_payloads()
    {
        var pair = new Pair().Start(Both with { Feature = 0x04 }, Both).Load(8);
        Answer(pair, 1, 0xA1);
        pair.Pulse();

        Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);
        Assert.True(pair.Sender.RxFifo.IsEmpty);
    }

    /// <summary>Table 19 p42: a payload in the acknowledgement lengthens it; 32 bytes both ways at 2 Mbps: 130 + 164.5 + 130 + 164.5.</summary>
    [Fact]
    public void Time_with_a_payload()
    {
        var pair = new Pair { Link = Both with { Rate = AirRate.Mbps2 } }.Start().Load(32);
        Answer(pair, 1, Pair.Payload(32));

        Assert.Equal(589, pair.TimeTo(StatusFlags.TxDs));
        Assert.Equal(Pair.Payload(32), pair.Sender.RxFifo.Payload(0).ToArray());
    }

    private static void Answer(Pair pair, int pipe, params byte[] payload) =>
        pair.Receiver.Transfer([(byte)(Command.WAckPayload | pipe), .. payload]);
}
