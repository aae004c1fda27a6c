using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Packets;

/// <summary>What goes on air, looked at bit by bit. Places in the nRF24L01+ Product Specification 1.0.</summary>
public class ShockBurstTests
{
    private static readonly Link Plain = new() { EnAa = 0, Retries = 0 };

    /// <summary>Figure 5 p28: the address goes with its most significant byte first; Table 20 p51: SPI carries the least first.</summary>
    [Fact]
    public void Address_on_air()
    {
        var frames = Sent(new(), new());

        Assert.Equal([0xAA, 0xB3, 0xB4, 0xB5, 0xB6, 0xF1], frames[0][..6]);
    }

    /// <summary>7.9.1 p49: with EN_AA 0 and ARC 0 there is no control field; the payload follows the address.</summary>
    [Fact]
    public void Plain_packets_have_no_control_field() => Assert.Equal(Pair.Payload(8), Sent(Plain, Plain)[0][6..14]);

    /// <summary>7.9 p49: both conditions count. ARC alone keeps the control field.</summary>
    [Fact]
    public void Retries_alone_keep_the_control_field() => Assert.NotEqual(Pair.Payload(8), Sent(Plain with { Retries = 3 }, Plain)[0][6..14]);

    /// <summary>7.9 p49: sent and received at once, without acknowledgement; TX_DS when the packet has gone (130 us + T_OA).</summary>
    [Fact]
    public void Plain_exchange()
    {
        var pair = new Pair { Link = Plain }.Start().Load(8);

        Assert.Equal(130 + (8 * (1 + 5 + 8 + 2)), pair.TimeTo(StatusFlags.TxDs));
        Assert.Equal(Pair.Payload(8), pair.Receiver.RxFifo.Payload(0).ToArray());
        Assert.Equal(1, pair.Air.Packets);
    }

    /// <summary>Table 28 p57: CRC off counts while no pipe acknowledges; the packet is 2 bytes shorter and still taken.</summary>
    [Fact]
    public void Without_crc()
    {
        var link = Plain with { Crc = 0 };
        var pair = new Pair { Link = link }.Start().Load(8);

        Assert.Equal(130 + (8 * (1 + 5 + 8)), pair.TimeTo(StatusFlags.TxDs));
        Assert.Equal(Pair.Payload(8), pair.Receiver.RxFifo.Payload(0).ToArray());
        Assert.Equal(0x03, pair.Receiver.Read(Register.Config));
    }

    /// <summary>Table 28 p57: EN_CRC is forced to 1 while a bit of EN_AA is 1.</summary>
    [Fact]
    public void Crc_is_forced_by_acknowledgement()
    {
        var pair = new Pair { Link = new() { Crc = 0 } }.Start().Load(8);

        Assert.Equal(0x0A, pair.Sender.Read(Register.Config));
        Assert.Equal(130 + 137 - 8 + 130 + 73 - 8, pair.TimeTo(StatusFlags.TxDs));
    }

    /// <summary>7.3.3 p28: with dynamic length the first six bits after the address are the length; 7.3.3.2 p29: the identity counts up.</summary>
    [Fact]
    public void Control_field()
    {
        var dynamic = new Link { DynPd = 0x3F, Feature = 0x04 };
        var frames = new List<PacketControl>();
        var pair = new Pair { Link = dynamic }.Start();
        pair.Air.Sent = packet =>
        {
            if (!packet.IsAck)
                frames.Add(PacketControl.Unpack(BitReader.Bits(packet.Frame.Bytes, 48, 9)));
        };
        foreach (var length in new[] { 1, 32, 7, 7, 20 })
        {
            pair.Load(length).Pulse();
            pair.Sender.Transfer(Command.WRegister | Register.Status, StatusFlags.All);
            pair.Receiver.Transfer(Command.FlushRx);
        }

        Assert.Equal([new(1, 1, false), new(32, 2, false), new(7, 3, false), new(7, 0, false), new(20, 1, false)], frames);
    }

    /// <summary>7.4 p33: an acknowledgement goes to the address of the packet; W51 of facts/radio-checks.csv: an empty one has length 0.</summary>
    [Fact]
    public void Acknowledgement_on_air()
    {
        var frames = Sent(new(), new());

        Assert.Equal(2, frames.Count);
        Assert.Equal(frames[0][..6], frames[1][..6]);
        Assert.Equal(0, BitReader.Bits(frames[1], 48, 6));
    }

    private static List<byte[]> Sent(Link sender, Link receiver)
    {
        var frames = new List<byte[]>();
        var pair = new Pair().Start(sender, receiver);
        pair.Air.Sent = packet => frames.Add([.. packet.Frame.Bytes[..((packet.Frame.Length + 7) / 8)], 0]);
        pair.Load(8).Pulse();
        return frames;
    }
}
