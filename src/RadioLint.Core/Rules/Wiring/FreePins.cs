using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>Pins to propose: free of other uses, of straps and of cautions, and able to do the job; the profile's own proposal first.</summary>
internal static class FreePins
{
    public static IEnumerable<BoardPin> For(Node node, string signal)
    {
        if (node.Board is not { } board)
            return [];
        var taken = new HashSet<string?>(node.Wiring.Lines().Select(line => line.Pin?.Port)
            .Concat(node.AlsoUses.Select(use => board.Find(use.Name.Text)?.Port))
            .Concat(board.Reserved.Select(reserved => board.Find(reserved.Pin.Text)?.Port))
            .Concat(node.SharesSpi.Select(other => other.Select?.Pin is { } pin ? board.Find(pin.Value)?.Port : null))
            .Where(port => port is not null), StringComparer.Ordinal)
            ;
        var proposed = signal switch { "ce" => board.Wiring?.Ce, "csn" => board.Wiring?.Csn, "irq" => board.Wiring?.Irq, _ => null };
        return board.Pins
            .Where(pin => pin.State is PinState.Free && pin.TakenBy.IsEmpty && !taken.Contains(pin.Port) && (pin.Labels.Length > 0 || pin.HeaderPin is not null) && Can(board, pin, signal))
            .OrderBy(pin => pin.Port == proposed ? 0 : 1);
    }

    private static bool Can(Board board, BoardPin pin, string signal) => signal switch
    {
        "irq" => pin.Can.HasFlag(PinAbilities.In) && board.Irq?.FallingEdge.Contains(pin.Port, StringComparer.Ordinal) == true,
        "miso" => pin.Can.HasFlag(PinAbilities.In),
        _ => pin.Can.HasFlag(PinAbilities.Out),
    };
}
