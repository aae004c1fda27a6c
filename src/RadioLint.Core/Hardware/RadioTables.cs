using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Hardware;

/// <summary>Supply of a radio.</summary>
/// <param name="Absolute">Beyond it the chip is damaged.</param>
/// <param name="With5V">The narrower range that holds while any input is above <paramref name="NarrowsAbove"/>.</param>
public sealed record RadioSupply(
    Fact<Between<Voltage>> Range, Fact<Between<Voltage>> Absolute, Fact<Between<Voltage>> With5V, Fact<Voltage> NarrowsAbove)
{
    /// <summary>The range that holds when the highest of its inputs reaches a voltage.</summary>
    public Fact<Between<Voltage>> RangeAt(Voltage highestInput) => highestInput > NarrowsAbove.Value ? With5V : Range;
}

/// <summary>Levels of a radio's pins.</summary>
/// <param name="Absolute">What an input stands.</param>
/// <param name="OutputDrop">A high output is the supply less this, a low one is this.</param>
public sealed record RadioSignals(Fact<Between<Voltage>> Absolute, Fact<Level> HighFrom, Fact<Level> LowUpTo, Fact<Voltage> OutputDrop);

/// <summary>The channels a radio can tune to.</summary>
public sealed record RadioChannels(int First, int Last, Frequency Base, Frequency Step, Origin Origin)
{
    /// <summary>The carrier of a channel: base + number x step.</summary>
    public Frequency Carrier(int channel) => new(Base.Hertz + (channel * Step.Hertz));
}

/// <summary>A crystal closer than usual, where the law asks for it.</summary>
public sealed record AskedTolerance(ImmutableArray<string> Countries, Share Tolerance, Origin Origin);

/// <summary>What a radio does at one data rate.</summary>
/// <param name="Bits">Its bits of RF_SETUP.</param>
/// <param name="Width">Full width of the occupied spectrum.</param>
/// <param name="Spacing">Between channels that do not overlap.</param>
/// <param name="Deviation">Either way.</param>
/// <param name="Receive">Current while listening.</param>
/// <param name="AckWindow">How long a sender listens for an address before it gives up.</param>
/// <param name="Irq">From the end of a packet to the interrupt line; null where nobody states it.</param>
public sealed record RadioRate(
    DataRate Rate,
    byte Bits,
    Fact<Frequency> Width,
    Fact<Frequency> Spacing,
    Fact<Frequency> Deviation,
    Fact<PowerLevel> Sensitivity,
    Fact<Current> Receive,
    Fact<Duration> AckWindow,
    Fact<Duration>? Irq);

/// <summary>One power step: what leaves the chip, the bits of RF_SETUP that choose it, and the current while sending.</summary>
public sealed record PowerStep(PowerLevel Step, byte Bits, Current Draws, Origin Origin);

/// <summary>The parts of RF_SETUP (register 0x06).</summary>
/// <param name="Carrier">Sends an unmodulated carrier; null where the part has no such bit.</param>
/// <param name="PllLock">For tests only.</param>
/// <param name="ReceiveBoost">LNA gain of the earlier part.</param>
public sealed record SetupRegister(Fact<byte> RateMask, Fact<byte> PowerMask, Fact<byte>? Carrier, Fact<byte> PllLock, Fact<byte>? ReceiveBoost);

/// <summary>What a register holds.</summary>
/// <param name="Width">In bytes: 1 or 5.</param>
public readonly record struct RegisterValue(ulong Bits, int Width)
{
    /// <summary>As it goes over SPI: least byte first.</summary>
    public ImmutableArray<byte> LeastFirst()
    {
        var bytes = ImmutableArray.CreateBuilder<byte>(Width);
        for (var i = 0; i < Width; i++)
            bytes.Add((byte)(Bits >> (8 * i)));
        return bytes.MoveToImmutable();
    }
}

/// <summary>What a register holds after power-on.</summary>
public sealed record RegisterReset(byte Address, string Name, RegisterValue Reset, Origin Origin);

/// <summary>Some bits of a register.</summary>
public sealed record RegisterBits(string Register, byte Mask);

/// <summary>Registers of the maker's own tests; writing them makes the chip malfunction.</summary>
public sealed record TestRegisters(byte First, byte Last, Origin Origin);

/// <summary>What a radio draws when it neither sends nor listens.</summary>
/// <param name="Standby2">CE high, sender, nothing to send.</param>
/// <param name="Start">Mean while the crystal starts.</param>
public sealed record RadioCurrents(
    Fact<Current> PowerDown, Fact<Current> Standby, Fact<Current> Standby2, Fact<Current> Start, Fact<Current> SettleTransmit, Fact<Current> SettleReceive);

/// <summary>How long a radio takes.</summary>
/// <param name="Start">Power-down to standby with the usual crystal.</param>
/// <param name="StartSlowest">The same with the slowest crystal allowed.</param>
/// <param name="PowerOn">From the least supply to a chip that answers.</param>
/// <param name="SupplyRamp">The longest that the supply may take to rise.</param>
/// <param name="Settle">Standby to sending or listening, and between the two.</param>
/// <param name="CePulse">The shortest that sends a packet.</param>
/// <param name="CsnHigh">The shortest between two commands.</param>
/// <param name="TransmitLongest">The longest stay in sending.</param>
/// <param name="Detector">How long a signal must last to be detected.</param>
public sealed record RadioTiming(
    Fact<Duration> Start,
    Fact<Duration> StartSlowest,
    Fact<Duration> PowerOn,
    Fact<Duration> SupplyRamp,
    Fact<Duration> Settle,
    Fact<Duration> CePulse,
    Fact<Duration> CeToCsn,
    Fact<Duration> CsnHigh,
    Fact<Duration> TransmitLongest,
    Fact<Duration> Detector);

/// <summary>The detector of received power.</summary>
/// <param name="Name">Its register.</param>
/// <param name="Shift">How far the level moves over temperature, either way.</param>
public sealed record PowerDetector(string Name, Fact<PowerLevel> Level, Fact<Gain> Shift);

/// <summary>How fast SPI may run into a load.</summary>
/// <param name="Delay">From the falling edge of SCK to a valid MISO.</param>
public sealed record SpiClockRow(Capacitance Load, Frequency UpTo, Duration Delay, Origin Origin);

/// <summary>The least delay before a repeat, for acknowledgements with so many bytes of payload; both ends count.</summary>
public sealed record LeastRetry(DataRate Rate, int FromBytes, int ToBytes, Duration Delay, Origin Origin);

/// <summary>Where a sender rests after an acknowledgement did not come.</summary>
public enum AfterMissedAck
{
    Standby,
    Standby2,
}
