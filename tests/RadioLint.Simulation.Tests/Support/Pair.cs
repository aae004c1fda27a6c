using RadioLint.Simulation;

namespace RadioLint.Tests.Simulation.Support;

/// <summary>A sender and a receiver on one air, driven by SPI alone; both start from reset and differ in nothing that a link needs.</summary>
internal sealed class Pair
{
    public const ulong Address = 0xB3B4B5B6F1;

    public Pair(ChipVariant? sender = null, ChipVariant? receiver = null, ulong seed = 1)
    {
        Air = new(seed);
        Sender = Air.Add(sender ?? ChipVariants.Plus);
        Receiver = Air.Add(receiver ?? ChipVariants.Plus);
    }

    public Air Air { get; }
    public Chip Sender { get; }
    public Chip Receiver { get; }
    public Link Link { get; init; } = new();

    /// <summary>Bytes of the payload sent: 10, 11, 12 and so on.</summary>
    public static byte[] Payload(int length) => [.. Enumerable.Range(0x10, length).Select(value => (byte)value)];

    /// <summary>Configures both ends, waits for standby and lets the receiver listen.</summary>
    public Pair Start(Link? sender = null, Link? receiver = null)
    {
        (sender ?? Link).Configure(Sender, isReceiver: false);
        (receiver ?? Link).Configure(Receiver, isReceiver: true);
        Air.AdvanceBy(2 * Ticks.PerMillisecond);
        Receiver.Ce(true, Air.Now);
        Air.AdvanceBy(Ticks.Microseconds(200));
        return this;
    }

    public Pair Load(int length = 8) => Load(Payload(length));

    public Pair Load(params byte[] payload)
    {
        Sender.Transfer([Command.WTxPayload, .. payload]);
        return this;
    }

    /// <summary>CE high for 20 us, then time for all that follows.</summary>
    public Pair Pulse(long microseconds = 100_000)
    {
        var start = Air.Now;
        Sender.Ce(true, start);
        Sender.Ce(false, start + Ticks.Microseconds(20));
        Air.Advance(start + Ticks.Microseconds(microseconds));
        return this;
    }

    /// <summary>Pulses CE and lets time pass to a flag; microseconds from CE rising to the flag, -1 when it did not come in half a second.</summary>
    public double TimeTo(byte flag)
    {
        var start = Air.Now;
        Sender.Ce(true, start);
        Sender.Ce(false, start + Ticks.Microseconds(20));
        while ((Sender.Status & flag) == 0 && Air.NextEvent <= start + (500 * Ticks.PerMillisecond))
            Air.Advance(Air.NextEvent);
        return (Sender.Status & flag) == 0 ? -1 : Ticks.ToMicroseconds(Air.Now - start);
    }
}
