using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>Where a brown-out detector trips: a setting is the middle of a window.</summary>
public static class BrownOut
{
    /// <summary>The lowest setting of classic AVR parts.</summary>
    public static readonly Voltage Lowest = new(1_800);

    /// <summary>
    /// The window of a setting of classic AVR parts (ATmega328/P data sheet 42735A, table 32-8); the setting itself where no table was read.
    /// </summary>
    public static Between<Voltage> Window(Voltage setting) => setting.Millivolts switch
    {
        1_800 => new(new(1_700), new(2_000)),
        2_700 => new(new(2_500), new(2_900)),
        4_300 => new(new(4_100), new(4_500)),
        _ => new(setting, setting),
    };
}
