using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Hardware.Keys;

/// <summary>The keys of the file of module kinds.</summary>
internal static class ModuleKindKeys
{
    private static readonly Key<string> Text = Figure.Plain("text", Scalars.Text, "what it is");
    private static readonly Key<string> Header = new("header", Scalars.Text, "the kind that it plugs in as");
    private static readonly Key<Fact<ImmutableArray<string>>> Pins = Figure.Sometimes("pins", Figure.Listed(Scalars.Text), "signals from pin 1");
    private static readonly Key<Fact<int>> Rows = Figure.Sometimes("rows", DataScalars.Whole, "rows of pins");
    private static readonly Key<string> SeenFrom = new("seen-from", Scalars.Text, "side the pins are counted from");

    private static readonly Key<Fact<ModulePulls>> PullUps =
        Figure.Always("pull-ups", Scalars.Words("a word", ("none", ModulePulls.None), ("unknown", ModulePulls.Unknown)), "pull-ups on its lines");

    private static readonly Key<Fact<AntennaKind>> Antenna = Figure.Sometimes(
        "antenna",
        Scalars.Words("an antenna", ("printed", AntennaKind.Printed), ("whip", AntennaKind.Whip), ("external", AntennaKind.External)),
        "what radiates");

    private static readonly Key<Fact<Capacitance>> Capacitor = Figure.Sometimes("capacitor", Quantities.Capacitance, "capacitor at its supply pins");
    private static readonly Key<Fact<string>> Regulator = Figure.Sometimes("regulator", Scalars.Text, "regulator by part number");
    private static readonly Key<Fact<string>> FrontEnd = Figure.Sometimes("front-end", Scalars.Text, "front end by part number");
    private static readonly Key<Fact<Between<Voltage>>> Input = Figure.Sometimes("input", Quantities.Voltages, "input range");
    private static readonly Key<Fact<Voltage>> InputAssured = Figure.Sometimes("input-assured", Quantities.Voltage, "input that is sure to do");

    private static readonly Key<Fact<bool>> Signals =
        Figure.Sometimes("signals", Scalars.Words("a word", ("passed through", true)), "what happens to its signals");

    private static readonly Key<Fact<Voltage>> Logic = Figure.Sometimes("logic", Quantities.Voltage, "voltage of its signals");

    private static readonly MapShape<ModuleKind> Entry = new(
        "a kind of module",
        [Text, Header, Pins, Rows, SeenFrom, PullUps, Antenna, Capacitor, Regulator, FrontEnd, Input, InputAssured, Signals, Logic],
        Build);

    private static readonly Key<ImmutableArray<ModuleKind>> All =
        Figure.Plain("modules", Figure.Named<ModuleKind, ModuleKind>("kinds of module", Entry, (name, kind) => kind with { Name = name }), "by name");

    public static readonly MapShape<ImmutableArray<ModuleKind>> File = new("the file of module kinds", [All, Remark.Key("sources", "documents")], s => s.The(All));

    private static ModuleKind Build(Settings s) => new()
    {
        Name = "",
        Text = s.The(Text),
        Header = s.Maybe(Header),
        Pins = s.Maybe(Pins),
        Rows = s.Maybe(Rows),
        SeenFrom = s.Maybe(SeenFrom),
        PullUps = s.The(PullUps),
        Antenna = s.Maybe(Antenna),
        Capacitor = s.Maybe(Capacitor),
        Regulator = s.Maybe(Regulator),
        FrontEnd = s.Maybe(FrontEnd),
        Input = s.Maybe(Input),
        InputAssured = s.Maybe(InputAssured),
        PassesSignals = s.Maybe(Signals),
        Logic = s.Maybe(Logic),
    };
}
