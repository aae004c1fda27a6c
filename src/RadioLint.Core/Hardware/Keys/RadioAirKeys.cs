using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Hardware.Keys;

/// <summary>The keys of a radio's file that speak of what goes over the air: channels, rates, power, interference.</summary>
internal static class RadioAirKeys
{
    private static readonly Key<int> First = Figure.Plain("first", DataScalars.Whole, "first channel");
    private static readonly Key<int> Last = Figure.Plain("last", DataScalars.Whole, "last channel");
    private static readonly Key<Frequency> From = Figure.Plain("from", Quantities.Frequency, "carrier of channel 0");
    private static readonly Key<Frequency> Step = Figure.Plain("step", Quantities.Frequency, "from one channel to the next");

    public static readonly MapShape<RadioChannels> Channel = Figure.Entry<RadioChannels>(
        "channels of a radio", [First, Last, From, Step], (s, origin) => new(s.The(First), s.The(Last), s.The(From), s.The(Step), origin));

    private static readonly Key<RadioRate> Kbps250 = RateKey(DataRate.Kbps250);
    private static readonly Key<RadioRate> Mbps1 = RateKey(DataRate.Mbps1);
    private static readonly Key<RadioRate> Mbps2 = RateKey(DataRate.Mbps2);

    public static readonly MapShape<ImmutableArray<RadioRate>> Rates = new(
        "rates of a radio",
        [Kbps250, Mbps1, Mbps2],
        s => ImmutableArray.CreateRange(new[] { s.Maybe(Kbps250), s.Maybe(Mbps1), s.Maybe(Mbps2) }.OfType<RadioRate>()));

    private static readonly Key<PowerLevel> Power = Figure.Plain("step", Quantities.PowerLevel, "what leaves the chip");
    private static readonly Key<byte> PowerBits = Figure.Plain("bits", DataScalars.Byte, "bits of RF_SETUP");
    private static readonly Key<Current> Draws = Figure.Plain("draws", Quantities.Current, "current while sending");

    public static readonly MapShape<PowerStep> PowerStep = Figure.Entry<PowerStep>(
        "a power step", [Power, PowerBits, Draws], (s, origin) => new(s.The(Power), s.The(PowerBits), s.The(Draws), origin));

    private static readonly Key<Fact<Frequency>> ClockStep = Figure.Always("clock-step", Quantities.Frequency, "offsets that its clock disturbs");
    private static readonly Key<Fact<Gain>> ClockPenalty = Figure.Always("clock-penalty", Quantities.Gain, "by how much");
    private static readonly Key<ImmutableArray<InterferenceRow>> Blocker = Figure.List("blocker", InterferenceEntry(), "by the regulator's method");
    private static readonly Key<ImmutableArray<InterferenceRow>> OwnKind = Figure.List("own-kind", InterferenceEntry(), "from the same modulation");

    public static readonly MapShape<Interference> Interference = new(
        "interference",
        [Blocker, OwnKind, ClockStep, ClockPenalty],
        s => new(s.The(Blocker), s.The(OwnKind), s.The(ClockStep), s.The(ClockPenalty)));

    private static readonly Key<DataRate> SkirtRate = Figure.Plain("rate", DataScalars.Rate, "data rate");
    private static readonly Key<Frequency> SkirtOffset = Figure.Plain("offset", Quantities.Frequency, "offset from the carrier");
    private static readonly Key<Gain> SkirtLevel = Figure.Plain("is", Quantities.Gain, "level against the carrier");

    public static readonly MapShape<SkirtRow> Skirt = Figure.Entry<SkirtRow>(
        "a skirt", [SkirtRate, SkirtOffset, SkirtLevel], (s, origin) => new(s.The(SkirtRate), s.The(SkirtOffset), s.The(SkirtLevel), origin));

    private static readonly Key<string> DetectorName = Figure.Plain("name", Scalars.Text, "its register");
    private static readonly Key<Fact<PowerLevel>> DetectorLevel = Figure.Always("level", Quantities.PowerLevel, "level that sets it");
    private static readonly Key<Fact<Gain>> DetectorShift = Figure.Always("shift", Quantities.Gain, "over temperature, either way");

    public static readonly MapShape<PowerDetector> Detector = new(
        "a detector", [DetectorName, DetectorLevel, DetectorShift], s => new(s.The(DetectorName), s.The(DetectorLevel), s.The(DetectorShift)));

    public static readonly Key<Fact<PowerLevel>> Strongest = Figure.Always("strongest", Quantities.PowerLevel, "strongest signal it receives");
    public static readonly MapShape<Settings> Receiver = new("a receiver", [Strongest], s => s);

    private static MapShape<InterferenceRow> InterferenceEntry()
    {
        var rate = Figure.Plain("rate", DataScalars.Rate, "data rate");
        var offset = Figure.Plain("offset", DataScalars.Offset, "offset from the carrier");
        var needed = Figure.Plain("is", Quantities.Gain, "wanted signal over interferer");
        return Figure.Entry<InterferenceRow>("a line of interference", [rate, offset, needed], (s, origin) => new(s.The(rate), s.The(offset), s.The(needed), origin));
    }

    private static Key<RadioRate> RateKey(DataRate rate)
    {
        var bits = Figure.Always("bits", DataScalars.Byte, "bits of RF_SETUP");
        var width = Figure.Always("width", Quantities.Frequency, "full width of the occupied spectrum");
        var spacing = Figure.Always("spacing", Quantities.Frequency, "between channels that do not overlap");
        var deviation = Figure.Always("deviation", Quantities.Frequency, "either way");
        var sensitivity = Figure.Always("sensitivity", Quantities.PowerLevel, "weakest signal it receives");
        var receive = Figure.Always("receive", Quantities.Current, "current while listening");
        var window = Figure.Always("ack-window", Quantities.Duration, "how long a sender listens for an address");
        var irq = Figure.Sometimes("irq", Quantities.Duration, "end of a packet to the interrupt line");
        var shape = new MapShape<RadioRate>(
            $"the rate {rate.InManifest()}",
            [bits, width, spacing, deviation, sensitivity, receive, window, irq],
            s => new(
                rate, s.Maybe(bits)?.Value ?? 0, s.The(width), s.The(spacing), s.The(deviation),
                s.The(sensitivity), s.The(receive), s.The(window), s.Maybe(irq)));

        // The earlier part has no 250 kbps; every part has the others.
        return new(rate.InManifest(), shape, "what it does at this rate") { IsRequired = rate is not DataRate.Kbps250 };
    }
}
