using System.Text;
using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1003: the board has no pin of that name.</summary>
public sealed class UnknownPin() : Rule(new(
    "RL1003", Severity.Error, "Pin does not exist on this board", "the board's profile: printed labels, port names, header positions", "0.1")
{
    // RL1007 needs three known pins.
    Silences = ["RL1006"],
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
                    yield return Unknown(node, board, name, line.Place, line.Signal) with { Subject = (node, line.Signal) };
            }
            foreach (var (pin, _) in board.Reserved)
            {
                if (board.Find(pin.Text) is null)
                    yield return Unknown(node, board, pin.Text, pin.Place) with { Subject = (node, pin.Text) };
            }
            foreach (var use in node.AlsoUses)
            {
                var name = use.Name.Text;
                if (board.Find(name) is not null)
                    continue;
                if (board.Find(use.Use) is not null)
                {
                    yield return At(
                        node, use.Name.Place, $"{board.Name} has no pin `{name}`; `{use.Use}`, which stands behind it, is one",
                        $"write the pin first: `{use.Use}: {name}`") with { Subject = (node, name) };
                }
                else if (IsLikeAPin(board, name) && !IsUnit(name))
                {
                    yield return Unknown(node, board, name, use.Name.Place) with { Subject = (node, name) };
                }
            }
            foreach (var other in node.SharesSpi)
            {
                if (other.Select?.Pin is { } select && board.Find(select.Value) is null)
                    yield return Unknown(node, board, select.Value, select.Place) with { Subject = (node, select.Value) };
            }
        }
    }

    // A slip of the pen led from a pin that is free for this, so no other is proposed.
    private Finding Unknown(Node node, Board board, string name, Place place, string? signal = null)
    {
        var taken = FreePins.Taken(node, _ => false);
        var free = board.Pins.Where(pin => !taken.Contains(pin.Port));
        var nearest = Nearest.To(name, (signal is null ? free : FreePins.For(node, signal)).SelectMany(pin => pin.Labels.Append(pin.Port)));
        return At(
            node, place, $"{board.Name} has no pin `{name}`",
            nearest is not null
                ? (FormattableString)$"write `{nearest}`, or another pin of the board"
                : $"use a pin as printed or by its port, such as {string.Join(", ", free.Where(pin => pin.State is PinState.Free).Take(4).Select(pin => pin.Label))}",
            nearest is null ? [] : [Offer($"Write `{nearest}`", place, nearest)]);
    }

    private static bool IsUnit(string name) => Array.Exists(Units, unit => name.StartsWith(unit, StringComparison.OrdinalIgnoreCase));

    // Other things than pins may stand in `also-uses`; what is built like one of the board's pins, or is a bare number, was meant as a pin.
    private static bool IsLikeAPin(Board board, string name)
    {
        var form = Form(name);
        return form == "#" || board.Pins.Any(pin => pin.Labels.Concat(pin.OtherLabels).Append(pin.Port).Any(known => Form(known) == form && form.IndexOf('#') >= 0));
    }

    // `D77` is D#, `P1.03` is P#.#, and any port letter stands for all: `PE2` and `PB5` are P@#.
    private static string Form(string name)
    {
        var form = new StringBuilder();
        for (var i = 0; i < name.Length; i++)
        {
            var c = char.ToUpperInvariant(name[i]);
            if (c is >= '0' and <= '9')
            {
                if (form.Length == 0 || form[form.Length - 1] != '#')
                    form.Append('#');
            }
            else
            {
                form.Append(i == 1 && form[0] == 'P' && c is >= 'A' and <= 'L' ? '@' : c);
            }
        }
        return form.ToString();
    }
}
