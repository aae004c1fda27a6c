using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Units;

namespace RadioLint.Hardware.Keys;

/// <summary>The keys of a radio's file.</summary>
internal static class RadioPartKeys
{
    private static readonly Key<string> Part = Figure.Plain("part", Scalars.Text, "part number");
    private static readonly Key<string> LookAlikeOf = new("look-alike-of", Scalars.Text, "the part it is sold as");
    private static readonly Key<RadioSupply> Supply = Figure.Plain("supply", RadioElectricalKeys.Supply, "supply");
    private static readonly Key<RadioSignals> Signals = Figure.Plain("signals", RadioElectricalKeys.Signals, "levels");
    private static readonly Key<RadioChannels> Channel = Figure.Plain("channel", RadioAirKeys.Channel, "channels");
    private static readonly Key<Settings> Crystal = Figure.Plain("crystal", RadioElectricalKeys.Crystal, "crystal");
    private static readonly Key<ImmutableArray<RadioRate>> Rates = Figure.Plain("rates", RadioAirKeys.Rates, "data rates");
    private static readonly Key<ImmutableArray<PowerStep>> Power = Figure.List("power", RadioAirKeys.PowerStep, "power steps");
    private static readonly Key<Fact<Gain>> PowerAccuracy = Figure.Always("power-accuracy", Quantities.Gain, "accuracy of the steps");
    private static readonly Key<SetupRegister> Setup = Figure.Plain("setup-register", RadioRegisterKeys.Setup, "RF_SETUP");
    private static readonly Key<ImmutableArray<RegisterReset>> Resets = Figure.List("registers-reset", RadioRegisterKeys.ResetEntry, "registers after power-on");
    private static readonly Key<ImmutableArray<RegisterBits>> FreeBits = Figure.Plain("free-bits", RadioRegisterKeys.Bits, "bits without effect");
    private static readonly Key<ImmutableArray<RegisterBits>> ZeroBits = Figure.Plain("zero-bits", RadioRegisterKeys.Bits, "bits to write 0");
    private static readonly Key<ImmutableArray<string>> Live = Figure.List("live", Scalars.Text, "registers that change by themselves");
    private static readonly Key<TestRegisters> Tests = Figure.Plain("test-registers", RadioRegisterKeys.Tests, "registers to leave alone");
    private static readonly Key<RadioCurrents> Currents = Figure.Plain("currents", RadioElectricalKeys.Currents, "currents");
    private static readonly Key<RadioTiming> Timing = Figure.Plain("timing", RadioElectricalKeys.Timing, "times");
    private static readonly Key<PowerDetector> Detector = Figure.Plain("detector", RadioAirKeys.Detector, "detector of received power");
    private static readonly Key<Settings> Receiver = Figure.Plain("receiver", RadioAirKeys.Receiver, "receiver");
    private static readonly Key<Settings> Spi = Figure.Plain("spi", RadioElectricalKeys.Spi, "SPI");
    private static readonly Key<Settings> Retry = Figure.Plain("retry", RadioRegisterKeys.Retry, "retries");
    private static readonly Key<Settings> Features = Figure.Plain("features", RadioRegisterKeys.Features, "features");
    private static readonly Key<Fact<int>> Fifo = Figure.Always("fifo", DataScalars.Whole, "packets each way");
    private static readonly Key<Fact<Between<int>>> Payload = Figure.Always("payload", DataScalars.Bytes, "payload of a packet");
    private static readonly Key<Fact<int>> Pipes = Figure.Always("pipes", DataScalars.Whole, "pipes");
    private static readonly Key<Fact<Between<Temperature>>> Warmth = Figure.Always("temperature", Quantities.Temperatures, "operating temperature");
    private static readonly Key<Interference> Interference = Figure.Plain("interference", RadioAirKeys.Interference, "what it tolerates");
    private static readonly Key<ImmutableArray<SkirtRow>> Skirt = Figure.List("skirt", RadioAirKeys.Skirt, "what it emits beside its channel");
    private static readonly Key<Fact<int>> WeakChannels = Figure.Sometimes("weak-channels", DataScalars.Whole, "channels that its clock disturbs");

    public static readonly MapShape<RadioPart> File = new(
        "a radio",
        [
            Part, LookAlikeOf, Supply, Signals, Channel, Crystal, Rates, Power, PowerAccuracy, Setup, Resets, FreeBits, ZeroBits, Live, Tests, Currents,
            Timing, Detector, Receiver, Spi, Retry, Features, Fifo, Payload, Pipes, Warmth, Interference, Skirt, WeakChannels, Remark.Key("sources", "documents"),
        ],
        Build);

    private static RadioPart Build(Settings s) => new()
    {
        Name = s.The(Part),
        LookAlikeOf = s.Maybe(LookAlikeOf),
        Supply = s.The(Supply),
        Signals = s.The(Signals),
        Channel = s.The(Channel),
        CrystalFrequency = Within(s, Crystal, RadioElectricalKeys.CrystalFrequency),
        CrystalTolerance = Within(s, Crystal, RadioElectricalKeys.CrystalTolerance),
        CrystalToleranceAsked = Within(s, Crystal, RadioElectricalKeys.CrystalAsked),
        Rates = s.The(Rates),
        PowerSteps = s.The(Power),
        PowerAccuracy = s.The(PowerAccuracy),
        SetupRegister = s.The(Setup),
        RegistersReset = s.The(Resets),
        FreeBits = s.The(FreeBits),
        ZeroBits = s.The(ZeroBits),
        Live = s.The(Live),
        TestRegisters = s.The(Tests),
        Currents = s.The(Currents),
        Timing = s.The(Timing),
        Detector = s.The(Detector),
        StrongestSignal = Within(s, Receiver, RadioAirKeys.Strongest),
        SpiFastest = Within(s, Spi, RadioElectricalKeys.SpiFastest),
        SpiClock = Within(s, Spi, RadioElectricalKeys.SpiClock),
        RetryStep = Within(s, Retry, RadioRegisterKeys.RetryStep),
        RetryLongest = Within(s, Retry, RadioRegisterKeys.RetryLongest),
        RetryLimit = Within(s, Retry, RadioRegisterKeys.RetryLimit),
        RetryLeast = Within(s, Retry, RadioRegisterKeys.RetryLeast),
        NeedsUnlock = Within(s, Features, RadioRegisterKeys.Unlock)?.Value ?? false,
        AfterMissedAck = Within(s, Features, RadioRegisterKeys.Missed),
        NoAckDoubt = Within(s, Features, RadioRegisterKeys.NoAckDoubt),
        Fifo = s.The(Fifo),
        Pipes = s.The(Pipes),
        PayloadRange = s.The(Payload),
        Temperature = s.The(Warmth),
        Interference = s.The(Interference),
        Skirt = s.The(Skirt),
        WeakChannels = s.Maybe(WeakChannels),
    };

    private static T Within<T>(Settings s, Key<Settings> group, Key<T> key) => s.Written(group) is { } inner ? inner.Value.The(key) : default!;
}
