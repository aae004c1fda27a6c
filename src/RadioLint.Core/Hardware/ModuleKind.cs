using System.Collections.Immutable;
using RadioLint.Hardware.Keys;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Hardware;

/// <summary>Whether a radio module pulls its lines to a level.</summary>
public enum ModulePulls
{
    None,
    Unknown,
}

/// <summary>A kind of radio module, or of board around one. What is null is unknown.</summary>
public sealed record ModuleKind
{
    /// <summary>As the manifest names it: `8-pin`, `adapter`.</summary>
    public required string Name { get; init; }

    /// <summary>What it is, in words.</summary>
    public required string Text { get; init; }

    /// <summary>The kind that it plugs in as.</summary>
    public required string? Header { get; init; }

    /// <summary>Signal names from pin 1; a name may repeat.</summary>
    public required Fact<ImmutableArray<string>>? Pins { get; init; }

    /// <summary>Of two rows the odd numbers are one, the even ones the other.</summary>
    public required Fact<int>? Rows { get; init; }

    /// <summary>The side that the pins are counted from; from the other they are mirrored.</summary>
    public required string? SeenFrom { get; init; }

    public required Fact<ModulePulls> PullUps { get; init; }
    public required Fact<AntennaKind>? Antenna { get; init; }

    /// <summary>The capacitor at its supply pins.</summary>
    public required Fact<Capacitance>? Capacitor { get; init; }

    /// <summary>By part number, see <see cref="Regulators"/>.</summary>
    public required Fact<string>? Regulator { get; init; }

    /// <summary>By part number, see <see cref="FrontEnds"/>.</summary>
    public required Fact<string>? FrontEnd { get; init; }

    public required Fact<Between<Voltage>>? Input { get; init; }

    /// <summary>The input from which its regulator is sure to regulate.</summary>
    public required Fact<Voltage>? InputAssured { get; init; }

    /// <summary>True where signals go straight through, without a level shifter.</summary>
    public required Fact<bool>? PassesSignals { get; init; }

    public required Fact<Voltage>? Logic { get; init; }
}

/// <summary>The kinds of module that ship with the library.</summary>
public static class ModuleKinds
{
    private static readonly Shelf<ModuleKind> Shelf = new(() => DataFile.Read("Hardware/modules.yaml", ModuleKindKeys.File), kind => kind.Name);

    /// <summary>In the order of the data file.</summary>
    public static ImmutableArray<string> Names => Shelf.Names;

    /// <summary>The kind of exactly this name, or null.</summary>
    public static ModuleKind? Find(string name) => Shelf.Find(name);

    /// <summary>The kind behind a manifest's `radio.header`.</summary>
    public static ModuleKind Of(ModuleHeader header) => Find(header switch
    {
        ModuleHeader.EightPin => "8-pin",
        ModuleHeader.TenPin => "10-pin",
        ModuleHeader.Castellated => "castellated",
        _ => "on board",
    }) ?? throw new InvalidOperationException($"Hardware/modules.yaml: the kind {header} is missing");
}
