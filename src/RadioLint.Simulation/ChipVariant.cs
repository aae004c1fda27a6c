using System.Collections.Immutable;

namespace RadioLint.Simulation;

/// <summary>What sets one part apart from the others. Values with their sources stand in <see cref="ChipVariants"/>.</summary>
public sealed record ChipVariant
{
    /// <summary>Part number.</summary>
    public required string Name { get; init; }

    /// <summary>True when it has 250 kbps.</summary>
    public required bool HasLowRate { get; init; }

    /// <summary>True when FEATURE, DYNPD and three commands stay dead until ACTIVATE 0x73.</summary>
    public required bool NeedsUnlock { get; init; }

    /// <summary>True when a sender waits out its retry delay in standby-II, false in standby-I.</summary>
    public required bool RestsInStandby2 { get; init; }

    /// <summary>RF_SETUP after reset.</summary>
    public required byte SetupReset { get; init; }

    /// <summary>Bits of RF_SETUP that must be written 0.</summary>
    public required byte SetupReserved { get; init; }

    /// <summary>Output in dBm by the three lowest bits of RF_SETUP.</summary>
    public required ImmutableArray<int> PowerDbm { get; init; }

    /// <summary>Weakest signal in dBm that is received, by <see cref="AirRate"/>.</summary>
    public required ImmutableArray<int> SensitivityDbm { get; init; }

    /// <summary>Power down to standby.</summary>
    public required long StartTicks { get; init; }

    /// <summary>From the supply to the end of reset.</summary>
    public required long PowerOnTicks { get; init; }

    /// <summary>The detector (RPD, CD, RSSI) answers 1 above this level.</summary>
    public required int DetectorDbm { get; init; }

    /// <summary>How long a signal must last to be detected.</summary>
    public required long DetectorTicks { get; init; }

    /// <summary>Fastest SCK at the lightest load.</summary>
    public required int SpiHertz { get; init; }

    /// <summary>Against radios of the same kind.</summary>
    public required RejectionTable OwnKind { get; init; }

    /// <summary>Against foreign signals.</summary>
    public required RejectionTable Blocker { get; init; }

    /// <summary>Strongest signal in dBm that is still received (nRF24L01+ Product Specification 1.0, Table 7 p16).</summary>
    public int StrongestDbm { get; init; }
}
