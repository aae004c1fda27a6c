using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Model;

/// <summary>What feeds a rail.</summary>
public enum SupplySource
{
    Adapter,
    Regulator,
    Battery,
    BoardPin,
    Converter,
    Usb,
    Mains,
    Bench,
    Divider,
    Diode,
    Led,
}

/// <summary>A capacitor at the module.</summary>
/// <param name="Kind">`ceramic`, `electrolytic`, `tantalum`, `polymer`; empty when not said.</param>
public sealed record Capacitor(Capacitance Value, string Kind)
{
    public override string ToString() => Kind.Length == 0 ? $"{Value}" : $"{Value} {Kind}";
}

/// <summary>Something else on the same rail.</summary>
public sealed record OtherLoad(string Name, string Kind, Current? Peak, Current? Average)
{
    /// <summary>Where its name stands.</summary>
    public Place NamePlace { get; init; }
}

/// <summary>What comes into a regulator: a voltage, a kind of source, or another supply.</summary>
public sealed record SupplyInput(Voltage? Voltage, SupplySource? Source, Supply? Supply);

/// <summary>One stage of a supply chain, from its source to its output.</summary>
public sealed record Supply(Place Place)
{
    public Stated<SupplySource>? From { get; init; }

    /// <summary>The board's pin that feeds it or that it feeds: `3V3`, `VCC`, `5V`, `RAW`, a port pin.</summary>
    public Stated<string>? Pin { get; init; }

    /// <summary>The regulator or converter by part number, as written.</summary>
    public Stated<string>? Part { get; init; }

    public Stated<Voltage>? Output { get; init; }
    public Stated<SupplyInput>? Input { get; init; }
    public Stated<Current>? Limit { get; init; }
    public Stated<Voltage>? Dropout { get; init; }
    public Stated<Current>? Quiescent { get; init; }
    public Stated<Voltage>? InputMax { get; init; }
    public Stated<Share>? Tolerance { get; init; }

    /// <summary>Empty with `none`, the default; null when what is written did not read.</summary>
    public Stated<ImmutableArray<Capacitor>>? Capacitors { get; init; }

    public Stated<ImmutableArray<string>>? Filter { get; init; }
    public ImmutableArray<Stated<Resistance>> Resistors { get; init; } = ImmutableArray<Stated<Resistance>>.Empty;

    /// <summary>True when grounds are said to be separate.</summary>
    public Stated<bool>? SeparateGround { get; init; }

    public ImmutableArray<OtherLoad> AlsoFeeds { get; init; } = ImmutableArray<OtherLoad>.Empty;
}

/// <summary>`2 x AA alkaline`: how many in series, of what.</summary>
public sealed record Cells(int Count, string Kind)
{
    public override string ToString() => FormattableString.Invariant($"{Count} x {Kind}");
}

/// <summary>A node's battery.</summary>
public sealed record Battery(
    Place Place,
    Stated<Cells>? Cells,
    Stated<Charge>? Capacity,
    Stated<Voltage>? Fresh,
    Stated<Voltage>? Empty,
    Stated<Resistance>? Resistance,
    Stated<Voltage>? WarnAt);
