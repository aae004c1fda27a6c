using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1003: the board has no pin of that name.</summary>
public sealed class UnknownPin() : Rule(new(
    "RL1003", Severity.Error, "Pin does not exist on this board", "the board's profile: printed labels, port names, header positions", "0.1")
{
    Silences = ["RL1006", "RL1007"],
})
{
    private static readonly string[] Units = ["Timer", "USART", "UART", "SPI", "TWI", "I2C", "ADC", "PWM", "RTC", "DMA", "SERCOM", "TC", "Wi-Fi"];

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Board is not { } board)
                continue;
            foreach (var line in node.Wiring.Lines())
            {
                if (line is { Pin: null, Tie: PinTie.None, Written: { } name })
                    yield return Unknown(node, board, name, line.Place) with { Subject = line.Signal is "ce" or "csn" or "irq" ? (node, line.Signal) : node };
            }
            foreach (var use in node.AlsoUses)
            {
                if (board.Find(use.Name.Text) is null && !IsUnit(use.Name.Text))
                    yield return Unknown(node, board, use.Name.Text, use.Name.Place) with { Subject = (node, use.Name.Text) };
            }
            foreach (var other in node.SharesSpi)
            {
                if (other.Select?.Pin is { } select && board.Find(select.Value) is null)
                    yield return Unknown(node, board, select.Value, select.Place) with { Subject = (node, select.Value) };
            }
        }
    }

    private Finding Unknown(Node node, Board board, string name, Place place)
    {
        var nearest = Nearest.To(name, board.PinNames());
        return At(
            node, place, $"{board.Name} has no pin `{name}`",
            nearest is not null
                ? (FormattableString)$"write `{nearest}`, or another pin of the board"
                : $"use a pin as printed or by its port, such as {string.Join(", ", board.Pins.Where(pin => pin.State is PinState.Free).Take(4).Select(pin => pin.Label))}",
            nearest is null ? [] : [Offer($"Write `{nearest}`", place, nearest)]);
    }

    private static bool IsUnit(string name) => Array.Exists(Units, unit => name.StartsWith(unit, StringComparison.OrdinalIgnoreCase));
}
