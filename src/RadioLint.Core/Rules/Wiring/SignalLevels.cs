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

    /// <summary>
    /// The board's logic voltage. A chip whose signals follow its supply and that hangs on the cells directly has the battery's, unless
    /// the manifest says otherwise.
    /// </summary>
    public static Voltage? OfController(Node node) =>
        node is { BoardSupply.From.Value: SupplySource.Battery, Board: { Logic: { } logic, Tolerates5V.Value: "with supply" } }
        && logic.Place.Source.Name.StartsWith("Hardware/", StringComparison.Ordinal) && RadioRail.Battery(node) is { } battery
            ? battery.Nominal
            : node.Board?.Logic?.Value;
}
