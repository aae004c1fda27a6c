using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Units;

namespace RadioLint.Hardware.Keys;

/// <summary>The keys of the file of regulators.</summary>
internal static class RegulatorKeys
{
    private static readonly Key<string> Text = Figure.Plain("text", Scalars.Text, "what it is");
    private static readonly Key<string> Noise = Figure.Plain("noise", Scalars.Text, "how clean its output is");
    private static readonly Key<Fact<Voltage>> Output = Figure.Always("output", Quantities.Voltage, "output");
    private static readonly Key<Fact<Current>> Limit = Figure.Always("limit", Quantities.Current, "what its document states");
    private static readonly Key<Fact<Current>> Planning = Figure.Sometimes("planning-limit", Quantities.Current, "what to plan with");
    private static readonly Key<Fact<Between<Voltage>>> Tolerance = Figure.Sometimes("tolerance", Quantities.Voltages, "output over temperature");
    private static readonly Key<Fact<Between<Voltage>>> At25 = Figure.Sometimes("tolerance-25", Quantities.Voltages, "output at 25 degC");
    private static readonly Key<Fact<Voltage>> Dropout = Figure.Sometimes("dropout", Quantities.Voltage, "typical dropout");
    private static readonly Key<Fact<Voltage>> DropoutMost = Figure.Sometimes("dropout-most", Quantities.Voltage, "maximum dropout");
    private static readonly Key<Fact<Current>> Quiescent = Figure.Sometimes("quiescent", Quantities.Current, "what it draws itself");
    private static readonly Key<Fact<Current>> QuiescentMost = Figure.Sometimes("quiescent-most", Quantities.Current, "at most");
    private static readonly Key<Fact<Current>> AtLoad = Figure.Sometimes("quiescent-at-load", Quantities.Current, "under load");
    private static readonly Key<Fact<Voltage>> InputMax = Figure.Sometimes("input-max", Quantities.Voltage, "highest input");
    private static readonly Key<Fact<Voltage>> InputLeast = Figure.Sometimes("input-least", Quantities.Voltage, "lowest input");
    private static readonly Key<Fact<Capacitance>> Capacitor = Figure.Sometimes("output-capacitor", Quantities.Capacitance, "least at its output");
    private static readonly Key<Fact<Temperature>> Rise = Figure.Sometimes("rise-per-watt", Quantities.Temperature, "heating by a watt");
    private static readonly Key<Fact<Temperature>> Junction = Figure.Sometimes("junction-max", Quantities.Temperature, "hottest junction");
    private static readonly Key<Fact<Dissipation>> Power = Figure.Sometimes("power-limit", Quantities.Dissipation, "most dissipation");

    private static readonly MapShape<Regulator> Entry = new(
        "a regulator",
        [
            Text, Noise, Output, Limit, Planning, Tolerance, At25, Dropout, DropoutMost, Quiescent, QuiescentMost, AtLoad, InputMax, InputLeast, Capacitor,
            Rise, Junction, Power,
        ],
        Build);

    private static readonly Key<ImmutableArray<Regulator>> All =
        Figure.Plain("regulators", Figure.Named<Regulator, Regulator>("regulators", Entry, (name, part) => part with { Name = name }), "by part number");

    public static readonly MapShape<ImmutableArray<Regulator>> File = new("the file of regulators", [All, Remark.Key("sources", "documents")], s => s.The(All));

    private static Regulator Build(Settings s) => new()
    {
        Name = "",
        Text = s.The(Text),
        Output = s.The(Output),
        Tolerance = s.Maybe(Tolerance),
        ToleranceAt25 = s.Maybe(At25),
        Dropout = s.Maybe(Dropout),
        DropoutMost = s.Maybe(DropoutMost),
        Limit = s.The(Limit),
        PlanningLimit = s.Maybe(Planning) ?? s.The(Limit),
        Quiescent = s.Maybe(Quiescent),
        QuiescentMost = s.Maybe(QuiescentMost),
        QuiescentAtLoad = s.Maybe(AtLoad),
        InputMax = s.Maybe(InputMax),
        InputLeast = s.Maybe(InputLeast),
        OutputCapacitor = s.Maybe(Capacitor),
        RisePerWatt = s.Maybe(Rise),
        JunctionMax = s.Maybe(Junction),
        PowerLimit = s.Maybe(Power),
        Noise = s.The(Noise),
    };
}
