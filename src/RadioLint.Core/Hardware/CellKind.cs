using System.Collections.Immutable;
using RadioLint.Hardware.Keys;
using RadioLint.Units;

namespace RadioLint.Hardware;

/// <summary>What a cell holds at one load.</summary>
public sealed record CapacityAtLoad(Current Load, Charge Capacity, Origin Origin);

/// <summary>A kind of battery cell; all voltages and resistances are of one cell. What is null is unknown.</summary>
public sealed record CellKind
{
    /// <summary>As in `cells: 2 x AA alkaline`.</summary>
    public required string Name { get; init; }

    public required ImmutableArray<string> AlsoCalled { get; init; }
    public required string Chemistry { get; init; }
    public required Fact<Voltage> Fresh { get; init; }
    public required Fact<Voltage> Nominal { get; init; }

    /// <summary>Half empty.</summary>
    public required Fact<Voltage>? Middle { get; init; }

    public required Fact<Voltage> Empty { get; init; }

    /// <summary>At light load; null where it depends on the size, which only the manifest knows.</summary>
    public required Fact<Charge>? Capacity { get; init; }

    /// <summary>By rising load.</summary>
    public required ImmutableArray<CapacityAtLoad> CapacityByLoad { get; init; }

    /// <summary>Fresh; the worse end decides.</summary>
    public required Fact<Between<Resistance>>? Resistance { get; init; }

    public required Fact<Between<Resistance>>? ResistanceEmpty { get; init; }

    /// <summary>The most for long.</summary>
    public required Fact<Current>? Continuous { get; init; }

    /// <summary>The most in pulses.</summary>
    public required Fact<Current>? Pulse { get; init; }

    /// <summary>Share of the capacity in a year.</summary>
    public required Fact<Share> SelfDischarge { get; init; }

    /// <summary>Computed lives end here.</summary>
    public required Fact<Duration>? ShelfLife { get; init; }

    public required Fact<Between<Temperature>>? Temperature { get; init; }

    /// <summary>Capacity that strong pulses cost.</summary>
    public required Fact<Share>? PulseLoss { get; init; }

    public required ImmutableArray<string> Cautions { get; init; }
}

/// <summary>The cells that ship with the library.</summary>
public static class CellKinds
{
    private static readonly Shelf<CellKind> Shelf = new(() => DataFile.Read("Hardware/cells.yaml", CellKindKeys.File), kind => kind.Name);

    /// <summary>In the order of the data file, without their other names.</summary>
    public static ImmutableArray<string> Names => Shelf.Names;

    /// <summary>The kind of exactly this name or other name, or null.</summary>
    public static CellKind? Find(string name) =>
        Shelf.Find(name) ?? Shelf.All.FirstOrDefault(kind => kind.AlsoCalled.Contains(name, StringComparer.Ordinal));
}
