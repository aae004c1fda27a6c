using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>A radio whose VDD is a port pin of the controller: on and off with the program.</summary>
public static class SwitchedSupply
{
    /// <summary>The port pin that feeds the radio; null when it hangs on a supply.</summary>
    public static BoardPin? Pin(Node node) =>
        node is { Supply: { From.Value: SupplySource.BoardPin, Pin.Value: var name }, Board: { } board } && board.Find(name) is { } pin
        && (pin.Can & (PinAbilities.In | PinAbilities.Out)) != 0 ? pin : null;

    /// <summary>
    /// From switching VDD on to a radio that can send: the end of its power-on reset and the start of its crystal, at their longest
    /// (nRF24L01+ Product Specification 1.0, Tables 14 and 16).
    /// </summary>
    public static Duration UntilReady(RadioPart part) => part.Timing.PowerOn.Value + part.Timing.Start.Value;
}
