using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Wiring;

/// <summary>What the controller's signals are when they reach the radio.</summary>
internal static class SignalLevels
{
    /// <summary>The controller's signals at the radio, or the radio's own supply behind a level shifter; null when not known.</summary>
    public static Voltage? AtRadio(Node node) =>
        node.Spi?.LevelShifter?.Value is LevelShifter.Gate or LevelShifter.Transistor ? RadioRail.Of(node)?.Nominal : OfController(node);

    /// <summary>The voltage of the controller's signals.</summary>
    public static Voltage? OfController(Node node) => RadioRail.AtController(node)?.Nominal;
}
