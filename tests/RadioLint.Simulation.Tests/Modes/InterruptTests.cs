using RadioLint.Simulation;
using RadioLint.Tests.Simulation.Support;

namespace RadioLint.Tests.Simulation.Modes;

/// <summary>The IRQ pin (nRF24L01+ Product Specification 1.0, Table 28 p57): low while a flag that is not masked is set.</summary>
public class InterruptTests
{
    [Theory]
    [InlineData(0x40, false, true)]
    [InlineData(0x20, true, false)]
    [InlineData(0x10, false, false)]
    [InlineData(0x70, true, true)]
    [InlineData(0x00, false, false)]
    public void Masks(byte masks, bool senderIrq, bool receiverIrq)
    {
        var pair = new Pair().Start();
        Link.Write(pair.Sender, Register.Config, (byte)(masks | 0x0E));
        pair.Receiver.Ce(false, pair.Air.Now);
        Link.Write(pair.Receiver, Register.Config, (byte)(masks | 0x0F));
        pair.Receiver.Ce(true, pair.Air.Now);
        pair.Air.AdvanceBy(Ticks.Settle);
        Assert.True(pair.Sender.Irq && pair.Receiver.Irq);
        pair.Load(8).Pulse();

        Assert.Equal((senderIrq, receiverIrq), (pair.Sender.Irq, pair.Receiver.Irq));
        // A mask keeps a flag off the pin, not out of STATUS.
        Assert.Equal((StatusFlags.TxDs, StatusFlags.RxDr), (pair.Sender.Status & StatusFlags.All, pair.Receiver.Status & StatusFlags.All));
    }

    /// <summary>Table 28 p57: MASK_MAX_RT.</summary>
    [Theory]
    [InlineData(0x10, true)]
    [InlineData(0x60, false)]
    public void Mask_of_max_rt(byte masks, bool irq)
    {
        var pair = new Pair().Start(receiver: new() { Channel = 10 });
        Link.Write(pair.Sender, Register.Config, (byte)(masks | 0x0E));
        pair.Load(8).Pulse();

        Assert.Equal(irq, pair.Sender.Irq);
    }

    /// <summary>Table 28 p59: writing ones to the flags releases the pin; another flag keeps it.</summary>
    [Fact]
    public void Release()
    {
        var both = new Link { DynPd = 0x3F, Feature = 0x06 };
        var pair = new Pair { Link = both }.Start().Load(8);
        pair.Receiver.Transfer(Command.WAckPayload | 1, 1);
        pair.Pulse();
        Assert.False(pair.Sender.Irq);

        Link.Write(pair.Sender, Register.Status, StatusFlags.TxDs);
        Assert.False(pair.Sender.Irq);
        Link.Write(pair.Sender, Register.Status, StatusFlags.RxDr);
        Assert.True(pair.Sender.Irq);
    }

    /// <summary>The flags rise at the end of a packet: RX_DR at 130 + 137 us after CE, before the acknowledgement goes (Table 19 p42).</summary>
    [Fact]
    public void Moment_of_rx_dr()
    {
        var pair = new Pair().Start().Load(8).Pulse(266);
        Assert.True(pair.Receiver.Irq);
        pair.Air.AdvanceBy(Ticks.Microseconds(1));

        Assert.False(pair.Receiver.Irq);
    }
}
