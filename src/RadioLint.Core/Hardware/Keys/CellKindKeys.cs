using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Units;

namespace RadioLint.Hardware.Keys;

/// <summary>The keys of the file of cells.</summary>
internal static class CellKindKeys
{
    private static readonly Key<string> Chemistry = Figure.Plain("chemistry", Scalars.Text, "chemistry");
    private static readonly Key<ImmutableArray<string>> AlsoCalled = Figure.List("also-called", Scalars.Text, "other names");
    private static readonly Key<Fact<Voltage>> Fresh = Figure.Always("fresh", Quantities.Voltage, "voltage when fresh");
    private static readonly Key<Fact<Voltage>> Nominal = Figure.Always("nominal", Quantities.Voltage, "nominal voltage");
    private static readonly Key<Fact<Voltage>> Middle = Figure.Sometimes("middle", Quantities.Voltage, "voltage when half empty");
    private static readonly Key<Fact<Voltage>> Empty = Figure.Always("empty", Quantities.Voltage, "voltage when empty");
    private static readonly Key<Fact<Charge>> Capacity = Figure.Sometimes("capacity", Quantities.Charge, "capacity at light load");
    private static readonly Key<Fact<Between<Resistance>>> Resistance = Figure.Sometimes("resistance", Quantities.Resistances, "inner resistance, fresh");
    private static readonly Key<Fact<Between<Resistance>>> ResistanceEmpty = Figure.Sometimes("resistance-empty", Quantities.Resistances, "inner resistance, empty");
    private static readonly Key<Fact<Current>> Continuous = Figure.Sometimes("continuous", Quantities.Current, "most for long");
    private static readonly Key<Fact<Current>> Pulse = Figure.Sometimes("pulse", Quantities.Current, "most in pulses");
    private static readonly Key<Fact<Share>> SelfDischarge = Figure.Always("self-discharge", Quantities.Share, "loss in a year");
    private static readonly Key<Fact<Duration>> ShelfLife = Figure.Sometimes("shelf-life", Quantities.Duration, "end of any computed life");
    private static readonly Key<Fact<Between<Temperature>>> Warmth = Figure.Sometimes("temperature", Quantities.Temperatures, "operating temperature");
    private static readonly Key<Fact<Share>> PulseLoss = Figure.Sometimes("pulse-loss", Quantities.Share, "capacity that strong pulses cost");
    private static readonly Key<ImmutableArray<string>> Cautions = Figure.List("cautions", Scalars.Text, "what can go wrong");

    private static readonly Key<Current> Load = Figure.Plain("load", Quantities.Current, "load");
    private static readonly Key<Charge> Held = Figure.Plain("capacity", Quantities.Charge, "capacity");

    private static readonly Key<ImmutableArray<CapacityAtLoad>> ByLoad = new(
        "capacity-by-load",
        Figure.Listed(Figure.Entry<CapacityAtLoad>("a capacity by load", [Load, Held], (s, origin) => new(s.The(Load), s.The(Held), origin))),
        "capacity by load");

    private static readonly MapShape<CellKind> Entry = new(
        "a cell",
        [
            Chemistry, AlsoCalled, Fresh, Nominal, Middle, Empty, Capacity, ByLoad, Resistance, ResistanceEmpty, Continuous, Pulse, SelfDischarge, ShelfLife,
            Warmth, PulseLoss, Cautions,
        ],
        Build);

    private static readonly Key<ImmutableArray<CellKind>> All =
        Figure.Plain("cells", Figure.Named<CellKind, CellKind>("cells", Entry, (name, kind) => kind with { Name = name }), "by name");

    public static readonly MapShape<ImmutableArray<CellKind>> File = new("the file of cells", [All, Remark.Key("sources", "documents")], s => s.The(All));

    private static CellKind Build(Settings s) => new()
    {
        Name = "",
        AlsoCalled = s.The(AlsoCalled),
        Chemistry = s.The(Chemistry),
        Fresh = s.The(Fresh),
        Nominal = s.The(Nominal),
        Middle = s.Maybe(Middle),
        Empty = s.The(Empty),
        Capacity = s.Maybe(Capacity),
        CapacityByLoad = s.Any(ByLoad),
        Resistance = s.Maybe(Resistance),
        ResistanceEmpty = s.Maybe(ResistanceEmpty),
        Continuous = s.Maybe(Continuous),
        Pulse = s.Maybe(Pulse),
        SelfDischarge = s.The(SelfDischarge),
        ShelfLife = s.Maybe(ShelfLife),
        Temperature = s.Maybe(Warmth),
        PulseLoss = s.Maybe(PulseLoss),
        Cautions = s.The(Cautions),
    };
}
