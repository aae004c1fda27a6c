using System.Collections.Immutable;

namespace RadioLint.Simulation;

/// <summary>
/// The three parts. D1 = nRF24L01+ Product Specification 1.0 (September 2008), D2 = nRF24L01 Product Specification 2.0 (July 2007),
/// D7 = Si24R1 datasheet (preliminary, 2012). What D7 does not state is taken from D1.
/// </summary>
public static class ChipVariants
{
    public static ChipVariant Plus { get; } = new()
    {
        Name = "nRF24L01+",
        HasLowRate = true,                                      // D1 Table 28 p58
        NeedsUnlock = false,                                    // D1 Table 20 p51: no ACTIVATE
        RestsInStandby2 = true,                                 // D1 Table 28 note b p63
        SetupReset = 0x0E,                                      // D1 Table 28 p58-59; bit 0 unstated
        SetupReserved = 0x40,                                   // D1 Table 28 p58
        PowerDbm = [-18, -18, -12, -12, -6, -6, 0, 0],          // D1 Table 28 p59: bits 2:1
        SensitivityDbm = [-94, -85, -82],                       // D1 Table 7 p16
        StartTicks = Ticks.Microseconds(1_500),                 // D1 Table 16 p24, crystal up to 30 mH
        PowerOnTicks = 100 * Ticks.PerMillisecond,              // D1 Table 14 p20: at most
        DetectorDbm = -64,                                      // D1 6.4 p25
        DetectorTicks = Ticks.Microseconds(40),                 // D1 6.4 p25
        SpiHertz = 10_000_000,                                  // D1 Table 22 p53, 5 pF
        OwnKind = new(RejectionRows.PlusOwnKind),
        Blocker = new(RejectionRows.PlusBlocker),
    };

    public static ChipVariant Earlier { get; } = Plus with
    {
        Name = "nRF24L01",
        HasLowRate = false,                                     // D2 Table 24 p54: no RF_DR_LOW
        NeedsUnlock = true,                                     // D2 Table 16 p46
        RestsInStandby2 = false,                                // D2 p58
        SetupReset = 0x0F,                                      // D2 Table 24 p54: LNA_HCURR = 1
        SetupReserved = 0xE0,                                   // D2 Table 24 p54
        SensitivityDbm = [0, -85, -82],                         // D2 Table 7 p16
        PowerOnTicks = Ticks.Microseconds(10_300),              // D2 Table 11 p18: at most
        DetectorTicks = Ticks.Microseconds(128),                // D2 6.1.4 p21
        SpiHertz = 8_000_000,                                   // D2 8.2 p45
        OwnKind = new(RejectionRows.EarlierOwnKind),
        Blocker = new(RejectionRows.EarlierBlocker),
    };

    public static ChipVariant Si24R1 { get; } = Plus with
    {
        Name = "Si24R1",
        PowerDbm = [-12, -6, -4, 0, 1, 3, 4, 7],                // D7 section 6: bits 2:0
        SensitivityDbm = [-96, -87, -83],                       // D7 section 7
        StartTicks = 2 * Ticks.PerMillisecond,                  // D7 section 3: 1.5 to 2 ms
        DetectorDbm = -60,                                      // D7 section 6
    };

    public static ImmutableArray<ChipVariant> All { get; } = [Plus, Earlier, Si24R1];

    /// <summary>The part of exactly this number, or null.</summary>
    public static ChipVariant? Find(string name) => All.FirstOrDefault(each => string.Equals(each.Name, name, StringComparison.Ordinal));
}
