using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Links;

/// <summary>
/// A link that works, and what a single change at one end does to it. Nothing here is programmed as an outcome: the bits that are sent
/// and the other end's way of cutting them decide. Places in the nRF24L01+ Product Specification 1.0.
/// </summary>
public class OutcomeTests
{
    private static readonly Link Dynamic = new() { DynPd = 0x3F, Feature = 0x04 };

    /// <summary>The sound variants: 6.2 p25 (rates), Table 28 p57-58 (CRC, address width), 7.3.4 p29 (length both ways).</summary>
    [Theory]
    [InlineData(AirRate.Mbps1, 5, 2, 8)]
    [InlineData(AirRate.Mbps2, 5, 2, 8)]
    [InlineData(AirRate.Kbps250, 5, 2, 8)]
    [InlineData(AirRate.Mbps1, 4, 2, 1)]
    [InlineData(AirRate.Mbps1, 3, 2, 32)]
    [InlineData(AirRate.Mbps2, 3, 1, 8)]
    [InlineData(AirRate.Kbps250, 4, 1, 32)]
    public void Delivered(AirRate rate, int width, int crc, int length)
    {
        var link = new Link { Rate = rate, Width = width, Crc = crc, Length = length };
        foreach (var each in new[] { link, link with { DynPd = 0x3F, Feature = 0x04 } })
        {
            var pair = new Pair { Link = each }.Start().Load(length).Pulse();

            Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);
            Assert.Equal(Pair.Payload(length), pair.Receiver.RxFifo.Payload(0).ToArray());
            Assert.Equal((1, 0), (pair.Receiver.RxFifo.Count, Repeats(pair)));
            Assert.Empty(pair.Sender.Violations);
            Assert.Empty(pair.Receiver.Violations);
        }
    }

    /// <summary>6.3 p25, 6.2 p25: channel and rate must be the same; four sendings with ARC 3, then MAX_RT (7.4.2 p33).</summary>
    [Fact]
    public void Not_heard()
    {
        AssertLost(receiver: new() { Channel = 75 });
        AssertLost(receiver: new() { Rate = AirRate.Mbps2 });
        AssertLost(receiver: new() { Rate = AirRate.Kbps250 });
    }

    /// <summary>Table 28 p58-60, 7.6 p39: another width or address is nobody's address.</summary>
    [Fact]
    public void No_address_match()
    {
        AssertLost(receiver: new() { Width = 4 });
        AssertLost(receiver: new() { Width = 3 });
        AssertLost(receiver: new() { Address = Pair.Address ^ 1 });
        AssertLost(receiver: new() { Address = Pair.Address ^ (1UL << 39) });
        AssertLost(receiver: new() { EnRxAddr = 0x3D });
    }

    /// <summary>7.3.5 p30, 7.3.4 p29, 7.9 p49: where the receiver expects other bits after the address, the checksum fails.</summary>
    [Fact]
    public void Checksum_fails()
    {
        AssertLost(receiver: new() { Crc = 1 });
        AssertLost(receiver: new() { Length = 7 });
        AssertLost(receiver: new() { Length = 9 });
        AssertLost(receiver: new() { Length = 32 });
        AssertLost(receiver: new() { EnAa = 0, Retries = 0 });
    }

    /// <summary>Table 28 p60: RX_PW 0 switches a pipe off; 7.3.4 p29 allows 1 to 32.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(33)]
    [InlineData(63)]
    public void Lengths_that_no_packet_has(int length) => AssertLost(receiver: new() { Length = length });

    /// <summary>7.3.5 p30, Table 28 p62-63: dynamic length needs EN_DPL, DPL_Pn and ENAA_Pn at the receiver.</summary>
    [Fact]
    public void Dynamic_length_needs_three_bits()
    {
        AssertLost(Dynamic, Dynamic with { Feature = 0, Length = 0 });
        AssertLost(Dynamic, Dynamic with { DynPd = 0x3D, Length = 0 });
        AssertLost(Dynamic, Dynamic with { EnAa = 0x3D, Length = 0 });
    }

    /// <summary>7.3.3.1 p29: the length field counts with dynamic length alone; a sender of static length fills it with nothing usable.</summary>
    [Fact]
    public void Static_sender_dynamic_receiver() => AssertLost(new(), Dynamic);

    /// <summary>7.3.3.1 p29, the other way: a receiver of static length looks at no length field, so a packet of its own length is taken.</summary>
    [Fact]
    public void Dynamic_sender_static_receiver()
    {
        var pair = new Pair().Start(Dynamic, new()).Load(8).Pulse();
        Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);

        AssertLost(Dynamic, new() { Length = 9 });
    }

    /// <summary>App. A p75, Table 28 p60: RX_ADDR_P0 must equal TX_ADDR, or the payload arrives and the acknowledgement is not taken.</summary>
    [Fact]
    public void Sender_without_its_own_address_on_pipe_0()
    {
        AssertUnconfirmed(new() { AckAddress = Pair.Address ^ 1 }, new());
        AssertUnconfirmed(new() { EnRxAddr = 0x02 }, new());
    }

    /// <summary>Table 28 note a p63: at 250 kbps ARD must be 500 us or more, even for an empty acknowledgement.</summary>
    [Fact]
    public void Retry_delay_of_250_us_at_250_kbps()
    {
        var link = new Link { Rate = AirRate.Kbps250, Delay = 0 };
        // The receiver is still answering when every other repeat begins.
        AssertUnconfirmed(link, link with { Delay = 1 }, answers: 2);

        var pair = new Pair().Start(link with { Delay = 1 }, link).Load(8).Pulse();
        Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);
    }

    /// <summary>7.4.1 p33: a receiver that does not acknowledge the pipe takes each repeat, having no reason to look for copies.</summary>
    [Fact]
    public void Receiver_without_acknowledgement_on_the_pipe()
    {
        var pair = new Pair().Start(new(), new() { EnAa = 0x01 }).Load(8).Pulse();

        Assert.Equal(StatusFlags.MaxRt, pair.Sender.Status & StatusFlags.All);
        Assert.Equal(3, pair.Receiver.RxFifo.Count);
    }

    /// <summary>Table 28 p57: ENAA_P0 off at the sender: it waits for nothing, and its acknowledgement goes unheard.</summary>
    [Fact]
    public void Sender_without_acknowledgement_on_pipe_0()
    {
        var pair = new Pair().Start(new() { EnAa = 0x3E }, new()).Load(8);

        Assert.Equal(130 + 137, pair.TimeTo(StatusFlags.TxDs));
        pair.Air.AdvanceBy(Ticks.PerMillisecond);
        Assert.Equal(2, pair.Air.Packets);
        Assert.Equal(1, pair.Receiver.RxFifo.Count);
    }

    /// <summary>6.3 p25: channels 0 to 125; with 126 at both ends nothing is on air, which the data sheet leaves open.</summary>
    [Fact]
    public void Channel_beyond_the_range()
    {
        var link = new Link { Channel = 126 };
        var pair = new Pair().Start(link, link).Load(8).Pulse();

        Assert.Equal(StatusFlags.MaxRt, pair.Sender.Status & StatusFlags.All);
        Assert.Equal(0, pair.Air.Packets);
        Assert.True(pair.Receiver.RxFifo.IsEmpty);
    }

    /// <summary>Table 28 p58: SETUP_AW 00 is illegal; nothing is on air.</summary>
    [Fact]
    public void Address_width_code_0()
    {
        var link = new Link { Width = 2 };
        var pair = new Pair().Start(link, link).Load(8).Pulse();

        Assert.Equal(StatusFlags.MaxRt, pair.Sender.Status & StatusFlags.All);
        Assert.True(pair.Receiver.RxFifo.IsEmpty);
    }

    private static int Repeats(Pair pair) => pair.Sender.Read(Register.ObserveTx) & 0x0F;

    private static void AssertLost(Link? sender = null, Link? receiver = null)
    {
        var pair = new Pair().Start(sender, receiver).Load(8).Pulse();

        Assert.Equal(StatusFlags.MaxRt, pair.Sender.Status & StatusFlags.All);
        Assert.Equal(4, pair.Air.Packets);
        Assert.Equal(0x13, pair.Sender.Read(Register.ObserveTx));
        Assert.Equal(0, pair.Receiver.Status & StatusFlags.All);
        Assert.True(pair.Receiver.RxFifo.IsEmpty);
        Assert.Equal(1, pair.Sender.TxFifo.Count);
    }

    private static void AssertUnconfirmed(Link sender, Link receiver, int answers = 4)
    {
        var pair = new Pair().Start(sender, receiver).Load(8).Pulse();

        Assert.Equal(StatusFlags.MaxRt, pair.Sender.Status & StatusFlags.All);
        Assert.Equal(4 + answers, pair.Air.Packets);
        Assert.Equal(Pair.Payload(8), pair.Receiver.RxFifo.Payload(0).ToArray());
        Assert.Equal(1, pair.Receiver.RxFifo.Count);
    }
}
