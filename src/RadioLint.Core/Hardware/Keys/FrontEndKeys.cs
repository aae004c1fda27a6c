using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Units;

namespace RadioLint.Hardware.Keys;

/// <summary>The keys of the file of front ends.</summary>
internal static class FrontEndKeys
{
    private static readonly Key<bool> Kind = Figure.Plain("kind", Scalars.Words("a kind", ("front end", false), ("module", true)), "whether the chip is inside");
    private static readonly Key<string> Text = Figure.Plain("text", Scalars.Text, "what it is");
    private static readonly Key<string> Chip = new("chip", Scalars.Text, "the radio inside");
    private static readonly Key<string> Inside = new("front-end", Scalars.Text, "the front end inside");
    private static readonly Key<Fact<Gain>> Gain = Figure.Always("gain", Quantities.Gain, "gain while sending");
    private static readonly Key<Fact<PowerLevel>> Saturation = Figure.Always("saturation", Quantities.PowerLevel, "most output");
    private static readonly Key<Fact<Current>> Draws = Figure.Always("draws", Quantities.Current, "current while sending");
    private static readonly Key<Fact<Current>> Receive = Figure.Always("receive", Quantities.Current, "current while listening");
    private static readonly Key<Fact<Between<Current>>> DrawsAlone = Figure.Sometimes("draws-alone", Quantities.Currents, "the same without the chip");
    private static readonly Key<Fact<Between<Current>>> ReceiveAlone = Figure.Sometimes("receive-alone", Quantities.Currents, "the same without the chip");
    private static readonly Key<Fact<Gain>> ReceiveGain = Figure.Always("receive-gain", Quantities.Gain, "gain while listening");
    private static readonly Key<Fact<Gain>> NoiseFigure = Figure.Always("noise-figure", Quantities.Gain, "noise figure");
    private static readonly Key<Fact<Current>> Sleep = Figure.Always("sleep", Quantities.Current, "current at rest");
    private static readonly Key<Fact<Between<Voltage>>> Supply = Figure.Always("supply", Quantities.Voltages, "operating range");
    private static readonly Key<Fact<Voltage>> Logic = Figure.Always("logic", Quantities.Voltage, "voltage of its signals");
    private static readonly Key<Fact<Voltage>> SignalsLimit = Figure.Always("signals-limit", Quantities.Voltage, "how far an input may be above the supply");
    private static readonly Key<Fact<Between<Frequency>>> Range = Figure.Sometimes("frequency", Quantities.Frequencies, "where it amplifies");
    private static readonly Key<Fact<Between<Temperature>>> Warmth = Figure.Sometimes("temperature", Quantities.Temperatures, "operating temperature");
    private static readonly Key<Fact<Between<PowerLevel>>> Output = Figure.Sometimes("output", Quantities.PowerLevels, "output at the strongest step");
    private static readonly Key<Fact<PowerLevel>> Sensitivity = Figure.Sometimes("sensitivity", Quantities.PowerLevel, "weakest signal it receives");
    private static readonly Key<Fact<PowerLevel>> Strongest = Figure.Sometimes("strongest", Quantities.PowerLevel, "strongest signal it stands");
    private static readonly Key<Fact<Voltage>> FullPower = Figure.Sometimes("full-power-from", Quantities.Voltage, "supply for full power");
    private static readonly Key<Fact<Share>> Margin = Figure.Sometimes("supply-margin", Quantities.Share, "reserve of the supply");
    private static readonly Key<ImmutableArray<string>> Cautions = new("cautions", Figure.Listed(Scalars.Text), "what can go wrong");

    private static readonly Key<PowerLevel> AtOutput = Figure.Plain("output", Quantities.PowerLevel, "output");
    private static readonly Key<Current> AtDraws = Figure.Plain("draws", Quantities.Current, "current");

    private static readonly Key<ImmutableArray<OutputDraw>> ByOutput = new(
        "draws-by-output",
        Figure.Listed(Figure.Entry<OutputDraw>("a current by output", [AtOutput, AtDraws], (s, origin) => new(s.The(AtOutput), s.The(AtDraws), origin))),
        "current by output");

    private static readonly MapShape<FrontEnd> Entry = new(
        "a front end",
        [
            Kind, Text, Chip, Inside, Gain, Saturation, Draws, Receive, DrawsAlone, ReceiveAlone, ReceiveGain, NoiseFigure, Sleep, Supply, Logic, SignalsLimit,
            Range, Warmth, Output, Sensitivity, Strongest, FullPower, Margin, Cautions, ByOutput,
        ],
        Build);

    private static readonly Key<ImmutableArray<FrontEnd>> All =
        Figure.Plain("front-ends", Figure.Named<FrontEnd, FrontEnd>("front ends", Entry, (name, part) => part with { Name = name }), "by part number");

    public static readonly MapShape<ImmutableArray<FrontEnd>> File = new("the file of front ends", [All, Remark.Key("sources", "documents")], s => s.The(All));

    private static FrontEnd Build(Settings s) => new()
    {
        Name = "",
        IsModule = s.The(Kind),
        Text = s.The(Text),
        Chip = s.Maybe(Chip),
        FrontEndName = s.Maybe(Inside),
        Gain = s.The(Gain),
        Saturation = s.The(Saturation),
        Draws = s.The(Draws),
        Receive = s.The(Receive),
        DrawsByOutput = s.Any(ByOutput),
        DrawsAlone = s.Maybe(DrawsAlone),
        ReceiveAlone = s.Maybe(ReceiveAlone),
        ReceiveGain = s.The(ReceiveGain),
        NoiseFigure = s.The(NoiseFigure),
        Sleep = s.The(Sleep),
        Supply = s.The(Supply),
        Logic = s.The(Logic),
        SignalsLimit = s.The(SignalsLimit),
        Frequency = s.Maybe(Range),
        Temperature = s.Maybe(Warmth),
        StatedOutput = s.Maybe(Output),
        Sensitivity = s.Maybe(Sensitivity),
        StrongestSignal = s.Maybe(Strongest),
        FullPowerFrom = s.Maybe(FullPower),
        SupplyMargin = s.Maybe(Margin),
        Cautions = s.Any(Cautions),
    };
}
