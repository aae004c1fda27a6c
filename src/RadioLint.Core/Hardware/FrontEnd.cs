using System.Collections.Immutable;
using RadioLint.Hardware.Keys;
using RadioLint.Units;

namespace RadioLint.Hardware;

/// <summary>What a front end draws, chip left out, at one output.</summary>
public sealed record OutputDraw(PowerLevel Output, Current Draws, Origin Origin);

/// <summary>An amplifier between chip and antenna, or a module that has one. What is null is unknown.</summary>
public sealed record FrontEnd
{
    private const string Whole = "chip and front end";

    /// <summary>Part number.</summary>
    public required string Name { get; init; }

    public required bool IsModule { get; init; }

    /// <summary>What it is, in words.</summary>
    public required string Text { get; init; }

    /// <summary>The radio inside a module, by part number.</summary>
    public required string? Chip { get; init; }

    /// <summary>The front end inside a module, by part number.</summary>
    public required string? FrontEndName { get; init; }

    public required Fact<Gain> Gain { get; init; }

    /// <summary>The most that comes out.</summary>
    public required Fact<PowerLevel> Saturation { get; init; }

    /// <summary>Current while sending; whether the chip is inside, <see cref="SendingDraw"/> knows.</summary>
    public required Fact<Current> Draws { get; init; }

    /// <summary>Current while listening; whether the chip is inside, <see cref="ListeningDraw"/> knows.</summary>
    public required Fact<Current> Receive { get; init; }

    /// <summary>Chip left out, by falling output; empty where nobody states it.</summary>
    public required ImmutableArray<OutputDraw> DrawsByOutput { get; init; }

    public required Fact<Between<Current>>? DrawsAlone { get; init; }
    public required Fact<Between<Current>>? ReceiveAlone { get; init; }
    public required Fact<Gain> ReceiveGain { get; init; }
    public required Fact<Gain> NoiseFigure { get; init; }
    public required Fact<Current> Sleep { get; init; }
    public required Fact<Between<Voltage>> Supply { get; init; }

    /// <summary>The voltage its signals are made for.</summary>
    public required Fact<Voltage> Logic { get; init; }

    /// <summary>How far an input may be above the supply.</summary>
    public required Fact<Voltage> SignalsLimit { get; init; }

    public required Fact<Between<Frequency>>? Frequency { get; init; }
    public required Fact<Between<Temperature>>? Temperature { get; init; }

    /// <summary>Of a module at its strongest step.</summary>
    public required Fact<Between<PowerLevel>>? StatedOutput { get; init; }

    public required Fact<PowerLevel>? Sensitivity { get; init; }
    public required Fact<PowerLevel>? StrongestSignal { get; init; }
    public required Fact<Voltage>? FullPowerFrom { get; init; }
    public required Fact<Share>? SupplyMargin { get; init; }
    public required ImmutableArray<string> Cautions { get; init; }

    /// <summary>What leaves it when the chip sends at a step: step + gain, at most the saturation.</summary>
    public PowerLevel Output(PowerLevel step) => step + Gain.Value < Saturation.Value ? step + Gain.Value : Saturation.Value;

    /// <summary>Current of chip and front end while sending, from that of the chip alone.</summary>
    public Current SendingDraw(Current chip) => Together(Draws, chip);

    /// <summary>Current of chip and front end while listening, from that of the chip alone.</summary>
    public Current ListeningDraw(Current chip) => Together(Receive, chip);

    private static Current Together(Fact<Current> stated, Current chip) => stated.Covers == Whole ? stated.Value : stated.Value + chip;
}

/// <summary>The front ends and amplified modules that ship with the library.</summary>
public static class FrontEnds
{
    private static readonly Shelf<FrontEnd> Shelf = new(() => DataFile.Read("Hardware/front-ends.yaml", FrontEndKeys.File), part => part.Name);

    /// <summary>In the order of the data file.</summary>
    public static ImmutableArray<string> Names => Shelf.Names;

    /// <summary>The part of exactly this number, or null.</summary>
    public static FrontEnd? Find(string name) => Shelf.Find(name);
}
