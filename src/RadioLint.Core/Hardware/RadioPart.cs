using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Hardware;

/// <summary>A radio chip as its data sheet tells it. What is null is unknown, and rules that need it are skipped.</summary>
public sealed record RadioPart
{
    /// <summary>Part number.</summary>
    public required string Name { get; init; }

    /// <summary>The part it is sold as, where it is a look-alike.</summary>
    public required string? LookAlikeOf { get; init; }

    public required RadioSupply Supply { get; init; }
    public required RadioSignals Signals { get; init; }
    public required RadioChannels Channel { get; init; }
    public required Fact<Frequency> CrystalFrequency { get; init; }

    /// <summary>Either way.</summary>
    public required Fact<Share> CrystalTolerance { get; init; }

    public required ImmutableArray<AskedTolerance> CrystalToleranceAsked { get; init; }

    /// <summary>Slowest first.</summary>
    public required ImmutableArray<RadioRate> Rates { get; init; }

    /// <summary>Strongest first.</summary>
    public required ImmutableArray<PowerStep> PowerSteps { get; init; }

    /// <summary>Either way.</summary>
    public required Fact<Gain> PowerAccuracy { get; init; }

    public required SetupRegister SetupRegister { get; init; }

    /// <summary>By address.</summary>
    public required ImmutableArray<RegisterReset> RegistersReset { get; init; }

    /// <summary>Bits without effect or without a stated reset: left out of comparisons.</summary>
    public required ImmutableArray<RegisterBits> FreeBits { get; init; }

    /// <summary>Bits that must be written 0.</summary>
    public required ImmutableArray<RegisterBits> ZeroBits { get; init; }

    /// <summary>Registers whose value changes by itself: never compared.</summary>
    public required ImmutableArray<string> Live { get; init; }

    public required TestRegisters TestRegisters { get; init; }
    public required RadioCurrents Currents { get; init; }
    public required RadioTiming Timing { get; init; }
    public required PowerDetector Detector { get; init; }

    /// <summary>The strongest signal that it still receives.</summary>
    public required Fact<PowerLevel> StrongestSignal { get; init; }

    public required Fact<Frequency> SpiFastest { get; init; }

    /// <summary>By rising load.</summary>
    public required ImmutableArray<SpiClockRow> SpiClock { get; init; }

    /// <summary>Delays are multiples of it; the least is one step.</summary>
    public required Fact<Duration> RetryStep { get; init; }

    public required Fact<Duration> RetryLongest { get; init; }

    /// <summary>How often a packet may be repeated.</summary>
    public required Fact<Between<int>> RetryLimit { get; init; }

    public required ImmutableArray<LeastRetry> RetryLeast { get; init; }

    /// <summary>True when FEATURE and DYNPD stay dead until the command ACTIVATE.</summary>
    public required bool NeedsUnlock { get; init; }

    public required Fact<AfterMissedAck> AfterMissedAck { get; init; }

    /// <summary>True when reports say that some parts send the NO_ACK bit inverted; null without such reports.</summary>
    public required Fact<bool>? NoAckDoubt { get; init; }

    /// <summary>Packets each way.</summary>
    public required Fact<int> Fifo { get; init; }

    public required Fact<int> Pipes { get; init; }

    /// <summary>In bytes.</summary>
    public required Fact<Between<int>> PayloadRange { get; init; }

    public required Fact<Between<Temperature>> Temperature { get; init; }
    public required Interference Interference { get; init; }
    public required ImmutableArray<SkirtRow> Skirt { get; init; }

    /// <summary>At 250 kbps the multiples of it are deaf by an unstated amount: a hint only.</summary>
    public required Fact<int>? WeakChannels { get; init; }

    /// <summary>What it does at a rate; null when it has no such rate.</summary>
    public RadioRate? Rate(DataRate rate) => Rates.FirstOrDefault(each => each.Rate == rate);

    /// <summary>The step of exactly this power, or null.</summary>
    public PowerStep? Step(PowerLevel power) => PowerSteps.FirstOrDefault(each => each.Step == power);

    /// <summary>
    /// The spectrum that a transmission fills: its 20 dB width about the carrier, widened by the crystal (nRF24L01+ Product
    /// Specification v1.0, section 6.3, Tables 6 and 11). Null at a rate that the part lacks.
    /// </summary>
    public Between<Frequency>? Occupied(int channel, DataRate rate) =>
        Rate(rate) is { } at ? Emission.Around(Channel.Carrier(channel), at.Width.Value, CrystalTolerance.Value) : null;

    /// <summary>The channels that stay inside a band whole, rising; empty at a rate that the part lacks.</summary>
    public ImmutableArray<int> ChannelsInside(Between<Frequency> band, DataRate rate) => ImmutableArray.CreateRange(
        Enumerable.Range(Channel.First, Channel.Last - Channel.First + 1).Where(channel => Occupied(channel, rate) is { } used && used.IsInside(band)));

    /// <summary>
    /// The line of the table of least retry delays (nRF24L01+ Product Specification v1.0, section 7.4.2, Table 18, Table 28
    /// notes a and d). Null at a rate that the part lacks and for a payload longer than a packet.
    /// </summary>
    public LeastRetry? LeastRetryDelay(DataRate rate, int ackPayloadBytes) =>
        RetryLeast.FirstOrDefault(row => row.Rate == rate && row.FromBytes <= ackPayloadBytes && ackPayloadBytes <= row.ToBytes);

    /// <summary>The line for a load on MISO: that of the next higher load listed; null above the highest.</summary>
    public SpiClockRow? SpiClockAt(Capacitance load) => SpiClock.FirstOrDefault(row => row.Load >= load);

    /// <summary>The bits of a register to leave out of comparisons.</summary>
    public byte FreeBitsOf(string register) => Mask(FreeBits, register);

    /// <summary>The bits of a register that must be written 0.</summary>
    public byte ZeroBitsOf(string register) => Mask(ZeroBits, register);

    private static byte Mask(ImmutableArray<RegisterBits> bits, string register) =>
        bits.FirstOrDefault(each => string.Equals(each.Register, register, StringComparison.Ordinal))?.Mask ?? 0;
}
