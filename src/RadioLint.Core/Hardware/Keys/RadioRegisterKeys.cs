using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Hardware.Keys;

/// <summary>The keys of a radio's file that speak of registers, retries and features.</summary>
internal static class RadioRegisterKeys
{
    private static readonly Key<Fact<byte>> RateMask = Figure.Always("rate-mask", DataScalars.Byte, "bits of the rate");
    private static readonly Key<Fact<byte>> PowerMask = Figure.Always("power-mask", DataScalars.Byte, "bits of the power");
    private static readonly Key<Fact<byte>> Carrier = Figure.Sometimes("carrier", DataScalars.Byte, "bit of the bare carrier");
    private static readonly Key<Fact<byte>> PllLock = Figure.Always("pll-lock", DataScalars.Byte, "bit of the locked PLL");
    private static readonly Key<Fact<byte>> Boost = Figure.Sometimes("receive-boost", DataScalars.Byte, "bit of the receive amplifier");

    public static readonly MapShape<SetupRegister> Setup = new(
        "RF_SETUP",
        [RateMask, PowerMask, Carrier, PllLock, Boost],
        s => new(s.The(RateMask), s.The(PowerMask), s.Maybe(Carrier), s.The(PllLock), s.Maybe(Boost)));

    private static readonly Key<byte> Address = Figure.Plain("address", DataScalars.Byte, "register address");
    private static readonly Key<string> Name = Figure.Plain("name", Scalars.Text, "register name");
    private static readonly Key<RegisterValue> Reset = Figure.Plain("reset", DataScalars.Register, "value after power-on");

    public static readonly MapShape<RegisterReset> ResetEntry = Figure.Entry<RegisterReset>(
        "a register", [Address, Name, Reset], (s, origin) => new(s.The(Address), s.The(Name), s.The(Reset), origin));

    private static readonly Key<byte> First = Figure.Plain("first", DataScalars.Byte, "first address");
    private static readonly Key<byte> Last = Figure.Plain("last", DataScalars.Byte, "last address");

    public static readonly MapShape<TestRegisters> Tests =
        Figure.Entry<TestRegisters>("test registers", [First, Last], (s, origin) => new(s.The(First), s.The(Last), origin));

    public static readonly Shape<ImmutableArray<RegisterBits>> Bits =
        Figure.Named<RegisterBits, byte>("bits by register", DataScalars.Byte, (name, mask) => new(name, mask));

    private static readonly Key<DataRate> LeastRate = Figure.Plain("rate", DataScalars.Rate, "data rate");
    private static readonly Key<Between<int>> LeastBytes = Figure.Plain("ack-payload", DataScalars.Bytes, "payload of the acknowledgement");
    private static readonly Key<Duration> LeastDelay = Figure.Plain("delay", Quantities.Duration, "least delay");

    private static readonly MapShape<LeastRetry> LeastEntry = Figure.Entry<LeastRetry>(
        "a least delay",
        [LeastRate, LeastBytes, LeastDelay],
        (s, origin) => new(s.The(LeastRate), s.The(LeastBytes).Low, s.The(LeastBytes).High, s.The(LeastDelay), origin));

    public static readonly Key<Fact<Duration>> RetryStep = Figure.Always("step", Quantities.Duration, "delays are multiples of it");
    public static readonly Key<Fact<Duration>> RetryLongest = Figure.Always("longest", Quantities.Duration, "longest delay");
    public static readonly Key<Fact<Between<int>>> RetryLimit = Figure.Always("limit", DataScalars.Wholes, "how many repeats");
    public static readonly Key<ImmutableArray<LeastRetry>> RetryLeast = Figure.List("least", LeastEntry, "least delays");
    public static readonly MapShape<Settings> Retry = new("retries of a radio", [RetryStep, RetryLongest, RetryLimit, RetryLeast], s => s);

    public static readonly Key<Fact<bool>> Unlock =
        Figure.Always("unlock", Scalars.Words("a command", ("none", false), ("ACTIVATE", true)), "command that opens FEATURE and DYNPD");

    public static readonly Key<Fact<AfterMissedAck>> Missed = Figure.Always(
        "after-missed-ack",
        Scalars.Words("a state", ("standby", AfterMissedAck.Standby), ("standby-2", AfterMissedAck.Standby2)),
        "where a sender rests without its acknowledgement");

    public static readonly Key<Fact<bool>> NoAckDoubt = Figure.Sometimes("no-ack-doubt", Scalars.Truth, "whether reports doubt the NO_ACK bit");

    private static readonly Key<Fact<string>> NoAckBit =
        Figure.Always("no-ack-bit", Scalars.Words("a polarity", ("same", "same")), "polarity of the NO_ACK bit against nRF24L01+");

    public static readonly MapShape<Settings> Features = new("features of a radio", [Unlock, Missed, NoAckDoubt, NoAckBit], s => s);
}
