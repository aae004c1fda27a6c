using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Manifest.Keys;
using RadioLint.Units;

namespace RadioLint.Hardware.Keys;

/// <summary>The keys of a radio's file that speak of supply, pins, crystal, currents, times and SPI.</summary>
internal static class RadioElectricalKeys
{
    private static readonly Key<Fact<Between<Voltage>>> Range = Figure.Always("range", Quantities.Voltages, "operating range");
    private static readonly Key<Fact<Between<Voltage>>> Absolute = Figure.Always("absolute", Quantities.Voltages, "absolute maximum");
    private static readonly Key<Fact<Between<Voltage>>> With5V = Figure.Always("with-5v-signals", Quantities.Voltages, "range with an input above narrows-above");
    private static readonly Key<Fact<Voltage>> NarrowsAbove = Figure.Always("narrows-above", Quantities.Voltage, "input level from which the narrower range holds");

    public static readonly MapShape<RadioSupply> Supply = new(
        "supply of a radio", [Range, Absolute, With5V, NarrowsAbove], s => new(s.The(Range), s.The(Absolute), s.The(With5V), s.The(NarrowsAbove)));

    private static readonly Key<Fact<Between<Voltage>>> SignalAbsolute = Figure.Always("absolute", Quantities.Voltages, "what an input stands");
    private static readonly Key<Fact<Level>> High = Figure.Always("high", ChipKeys.LevelShape, "least level that counts as high");
    private static readonly Key<Fact<Level>> Low = Figure.Always("low", ChipKeys.LevelShape, "most level that counts as low");
    private static readonly Key<Fact<Voltage>> OutputDrop = Figure.Always("output-drop", Quantities.Voltage, "how far an output stays from its rail");

    public static readonly MapShape<RadioSignals> Signals = new(
        "levels of a radio", [SignalAbsolute, High, Low, OutputDrop], s => new(s.The(SignalAbsolute), s.The(High), s.The(Low), s.The(OutputDrop)));

    private static readonly Key<ImmutableArray<string>> Countries = Figure.List("countries", Scalars.Reference, "country codes");
    private static readonly Key<Share> Asked = Figure.Plain("is", Quantities.Share, "tolerance");

    private static readonly MapShape<AskedTolerance> AskedEntry =
        Figure.Entry<AskedTolerance>("a tolerance", [Countries, Asked], (s, origin) => new(s.The(Countries), s.The(Asked), origin));

    public static readonly Key<Fact<Frequency>> CrystalFrequency = Figure.Always("frequency", Quantities.Frequency, "the crystal's frequency");
    public static readonly Key<Fact<Share>> CrystalTolerance = Figure.Always("tolerance", Quantities.Share, "the crystal's tolerance, either way");
    public static readonly Key<ImmutableArray<AskedTolerance>> CrystalAsked = Figure.List("tolerance-asked", AskedEntry, "narrower ones that the law asks for");
    public static readonly MapShape<Settings> Crystal = new("crystal of a radio", [CrystalFrequency, CrystalTolerance, CrystalAsked], s => s);

    private static readonly Key<Fact<Current>> PowerDown = Draw("power-down");
    private static readonly Key<Fact<Current>> Standby = Draw("standby");
    private static readonly Key<Fact<Current>> Standby2 = Draw("standby-2");
    private static readonly Key<Fact<Current>> Starting = Draw("start");
    private static readonly Key<Fact<Current>> SettleTransmit = Draw("settle-transmit");
    private static readonly Key<Fact<Current>> SettleReceive = Draw("settle-receive");

    public static readonly MapShape<RadioCurrents> Currents = new(
        "currents of a radio",
        [PowerDown, Standby, Standby2, Starting, SettleTransmit, SettleReceive],
        s => new(s.The(PowerDown), s.The(Standby), s.The(Standby2), s.The(Starting), s.The(SettleTransmit), s.The(SettleReceive)));

    private static readonly Key<Fact<Duration>> Start = Time("start", "power-down to standby, usual crystal");
    private static readonly Key<Fact<Duration>> StartSlowest = Time("start-slowest", "power-down to standby, slowest crystal");
    private static readonly Key<Fact<Duration>> PowerOn = Time("power-on", "supply to a chip that answers");
    private static readonly Key<Fact<Duration>> SupplyRamp = Time("supply-ramp", "longest rise of the supply");
    private static readonly Key<Fact<Duration>> Settle = Time("settle", "standby to sending or listening");
    private static readonly Key<Fact<Duration>> CePulse = Time("ce-pulse", "shortest pulse that sends");
    private static readonly Key<Fact<Duration>> CeToCsn = Time("ce-to-csn", "CE high to CSN low");
    private static readonly Key<Fact<Duration>> CsnHigh = Time("csn-high", "shortest between commands");
    private static readonly Key<Fact<Duration>> TransmitLongest = Time("transmit-longest", "longest stay in sending");
    private static readonly Key<Fact<Duration>> Detecting = Time("detector", "signal that sets the detector");

    public static readonly MapShape<RadioTiming> Timing = new(
        "timing of a radio",
        [Start, StartSlowest, PowerOn, SupplyRamp, Settle, CePulse, CeToCsn, CsnHigh, TransmitLongest, Detecting],
        s => new(
            s.The(Start), s.The(StartSlowest), s.The(PowerOn), s.The(SupplyRamp), s.The(Settle),
            s.The(CePulse), s.The(CeToCsn), s.The(CsnHigh), s.The(TransmitLongest), s.The(Detecting)));

    private static readonly Key<Capacitance> Load = Figure.Plain("load", Quantities.Capacitance, "load on MISO");
    private static readonly Key<Frequency> UpTo = Figure.Plain("up-to", Quantities.Frequency, "fastest clock");
    private static readonly Key<Duration> Delay = Figure.Plain("delay", Quantities.Duration, "SCK falling to MISO valid");

    private static readonly MapShape<SpiClockRow> ClockRow = Figure.Entry<SpiClockRow>(
        "an SPI clock", [Load, UpTo, Delay], (s, origin) => new(s.The(Load), s.The(UpTo), s.The(Delay), origin));

    public static readonly Key<Fact<Frequency>> SpiFastest = Figure.Always("fastest", Quantities.Frequency, "fastest clock of all");
    public static readonly Key<ImmutableArray<SpiClockRow>> SpiClock = Figure.List("clock", ClockRow, "clocks by load");
    public static readonly MapShape<Settings> Spi = new("SPI of a radio", [SpiFastest, SpiClock], s => s);

    private static Key<Fact<Current>> Draw(string name) => Figure.Always(name, Quantities.Current, "current");

    private static Key<Fact<Duration>> Time(string name, string summary) => Figure.Always(name, Quantities.Duration, summary);
}
