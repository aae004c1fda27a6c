using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1015: the program waits for the edge of IRQ that comes only after the work is done.</summary>
public sealed class IrqEdgeWrong() : Rule(new(
    "RL1015", Severity.Error, "IRQ awaited on its rising edge",
    "IRQ is active low and stays low until its flag is cleared by writing a one (nRF24L01+ Product Specification 1.0, section 8.5 and Table 28)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Wiring.Irq is not { Use.Trigger: { Value: Trigger.RisingEdge } trigger } line)
                continue;
            // Where the pin sees no edges, the other word would only be the next fault.
            var isChangeOnly = line.Pin is { } pin && node.Board?.Irq is { } able
                && !able.FallingEdge.Contains(pin.Port, StringComparer.Ordinal) && able.PinChange.Contains(pin.Port, StringComparer.Ordinal);
            var better = isChangeOnly ? "any change" : "falling edge";
            yield return At(
                node, trigger.Place, $"`irq` of `{node.Label}` is awaited on its rising edge; the radio pulls it low and lets go only when the program has cleared the flag",
                isChangeOnly ? (FormattableString)$"use `any change` and read the level" : $"use `falling edge`, or `low level`",
                Offer($"Use `{better}`", trigger.Place, better));
        }
    }
}
