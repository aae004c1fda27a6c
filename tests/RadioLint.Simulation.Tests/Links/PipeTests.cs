using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Links;

/// <summary>Six pipes (nRF24L01+ Product Specification 1.0, 7.6 p39-41).</summary>
public class PipeTests
{
    private static readonly ulong[] Addresses = [0x7878787878, 0xB3B4B5B6F1, 0xB3B4B5B6CD, 0xB3B4B5B6A3, 0xB3B4B5B60F, 0xB3B4B5B605];

    /// <summary>Figure 14 p41, with addresses like its own: each pipe takes its own, acknowledges on it, and STATUS names it.</summary>
    [Theory]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    public void Every_pipe_at_every_width(int width)
    {
        for (var pipe = 0; pipe < 6; pipe++)
        {
            var address = Addresses[pipe] & ((1UL << (8 * width)) - 1);
            var pair = Listening(width, 0x3F, 0x3F, new() { Width = width, Address = address, Length = pipe + 1 }).Load(pipe + 1).Pulse();

            Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);
            Assert.Equal(pipe, (pair.Receiver.Status >> 1) & 7);
            Assert.Equal(Pair.Payload(pipe + 1), pair.Receiver.RxFifo.Payload(0).ToArray());
        }
    }

    /// <summary>Table 28 p57-58: a closed pipe takes nothing.</summary>
    [Fact]
    public void Closed_pipes()
    {
        for (var pipe = 0; pipe < 6; pipe++)
        {
            var pair = Listening(5, (byte)(0x3F & ~(1 << pipe)), 0x3F, new() { Address = Addresses[pipe], Length = pipe + 1 }).Load(pipe + 1).Pulse();

            Assert.Equal(StatusFlags.MaxRt, pair.Sender.Status & StatusFlags.All);
            Assert.True(pair.Receiver.RxFifo.IsEmpty);
        }
    }

    /// <summary>7.4.1 p33, Table 28 p57: acknowledgement is a setting of each pipe.</summary>
    [Fact]
    public void Acknowledgement_pipe_by_pipe()
    {
        for (var pipe = 0; pipe < 6; pipe++)
        {
            var pair = Listening(5, 0x3F, (byte)(1 << pipe), new() { Address = Addresses[pipe], Length = pipe + 1 }).Load(pipe + 1).Pulse();
            Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);

            var other = (pipe + 1) % 6;
            pair = Listening(5, 0x3F, (byte)(1 << pipe), new() { Address = Addresses[other], Length = other + 1 }).Load(other + 1).Pulse();
            Assert.Equal(StatusFlags.MaxRt, pair.Sender.Status & StatusFlags.All);
        }
    }

    /// <summary>Table 28 p62-63: dynamic length is a setting of each pipe.</summary>
    [Fact]
    public void Dynamic_length_pipe_by_pipe()
    {
        for (var pipe = 0; pipe < 6; pipe++)
        {
            var sender = new Link { Address = Addresses[pipe], DynPd = 0x01, Feature = 0x04 };
            var pair = Listening(5, 0x3F, 0x3F, sender);
            Link.Write(pair.Receiver, Register.Feature, 0x04);
            Link.Write(pair.Receiver, Register.DynPd, (byte)(1 << pipe));
            pair.Load(23).Pulse();

            Assert.Equal(StatusFlags.TxDs, pair.Sender.Status & StatusFlags.All);
            Assert.Equal(Pair.Payload(23), pair.Receiver.RxFifo.Payload(0).ToArray());
        }
    }

    /// <summary>7.6 p39: two pipes with one address are not allowed; the model answers with the lower number.</summary>
    [Fact]
    public void One_address_on_two_pipes()
    {
        var pair = Listening(5, 0x3F, 0x3F, new() { Address = Addresses[3], Length = 3 });
        Link.Write(pair.Receiver, Register.RxAddrP0 + 2, 0xA3);
        pair.Load(3).Pulse();

        Assert.Equal(2, (pair.Receiver.Status >> 1) & 7);
    }

    private static Pair Listening(int width, byte open, byte acknowledging, Link sender)
    {
        var pair = new Pair().Start(sender, new() { Width = width, EnRxAddr = open, EnAa = acknowledging });
        var link = new Link { Width = width };
        for (byte pipe = 0; pipe < 6; pipe++)
        {
            if (pipe < 2)
                link.WriteAddress(pair.Receiver, (byte)(Register.RxAddrP0 + pipe), Addresses[pipe]);
            else
                Link.Write(pair.Receiver, (byte)(Register.RxAddrP0 + pipe), (byte)Addresses[pipe]);
            Link.Write(pair.Receiver, (byte)(Register.RxPwP0 + pipe), (byte)(pipe + 1));
        }
        return pair;
    }
}
