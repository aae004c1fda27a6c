using System.Collections.Immutable;
using RadioLint.Hardware.Keys;
using RadioLint.Units;

namespace RadioLint.Hardware;

/// <summary>A part that makes a 3.3 V rail. What is null is unknown, and rules that need it are skipped.</summary>
public sealed record Regulator
{
    /// <summary>Part number.</summary>
    public required string Name { get; init; }

    /// <summary>What it is, in words.</summary>
    public required string Text { get; init; }

    public required Fact<Voltage> Output { get; init; }

    /// <summary>Output over temperature.</summary>
    public required Fact<Between<Voltage>>? Tolerance { get; init; }

    /// <summary>Output at 25 degC.</summary>
    public required Fact<Between<Voltage>>? ToleranceAt25 { get; init; }

    /// <summary>Typical, at the current in its condition.</summary>
    public required Fact<Voltage>? Dropout { get; init; }

    /// <summary>Maximum, at the current in its condition.</summary>
    public required Fact<Voltage>? DropoutMost { get; init; }

    /// <summary>What its document states; 0 for a pin that is no supply at all.</summary>
    public required Fact<Current> Limit { get; init; }

    /// <summary>What to plan with; <see cref="Limit"/> where there is no other figure.</summary>
    public required Fact<Current> PlanningLimit { get; init; }

    public required Fact<Current>? Quiescent { get; init; }
    public required Fact<Current>? QuiescentMost { get; init; }
    public required Fact<Current>? QuiescentAtLoad { get; init; }
    public required Fact<Voltage>? InputMax { get; init; }
    public required Fact<Voltage>? InputLeast { get; init; }

    /// <summary>The least at its output.</summary>
    public required Fact<Capacitance>? OutputCapacitor { get; init; }

    /// <summary>How much hotter than the air its junction gets for each watt.</summary>
    public required Fact<Temperature>? RisePerWatt { get; init; }

    public required Fact<Temperature>? JunctionMax { get; init; }
    public required Fact<Dissipation>? PowerLimit { get; init; }

    /// <summary>How clean its output is, in words.</summary>
    public required string Noise { get; init; }
}

/// <summary>The regulators that ship with the library.</summary>
public static class Regulators
{
    private static readonly Shelf<Regulator> Shelf = new(() => DataFile.Read("Hardware/regulators.yaml", RegulatorKeys.File), part => part.Name);

    /// <summary>In the order of the data file.</summary>
    public static ImmutableArray<string> Names => Shelf.Names;

    /// <summary>The part of exactly this number, or null.</summary>
    public static Regulator? Find(string name) => Shelf.Find(name);
}
