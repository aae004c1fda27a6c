using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>Pins to propose: free of other uses, of straps and of cautions, and able to do the job; the profile's own proposal first.</summary>
internal static class FreePins
{
    /// <param name="node">Whose board.</param>
    /// <param name="signal">A line of the radio, or `in` for a pin that something else reads.</param>
    public static IEnumerable<BoardPin> For(Node node, string signal)
    {
        if (node.Board is null)
            return [];
        // Both may be missing: they are not to be given one pin.
        var ce = signal == "csn" && node.Wiring.Ce is null ? Unreserved(node, "ce").FirstOrDefault() : null;
        return Unreserved(node, signal).Where(pin => pin != ce);
    }

    /// <summary>The same, though another line of the radio may be given one of them too.</summary>
    public static IEnumerable<BoardPin> Unreserved(Node node, string signal)
    {
        var board = node.Board!;
        var taken = Taken(node, _ => false);
        var proposed = signal switch { "ce" => board.Wiring?.Ce, "csn" => board.Wiring?.Csn, "irq" => board.Wiring?.Irq, _ => null };
        return board.Pins
            .Where(pin => pin.State is PinState.Free && pin.TakenBy.IsEmpty && !taken.Contains(pin.Port) && (pin.Labels.Length > 0 || pin.HeaderPin is not null) && Can(node, pin, signal))
            .OrderBy(pin => pin.Port == proposed ? 0 : 1);
    }

    /// <summary>Ports that something is on.</summary>
    /// <param name="node">Whose board.</param>
    /// <param name="moves">True for lines of the radio that do not count.</param>
    public static HashSet<string> Taken(Node node, Func<Line, bool> moves)
    {
        var board = node.Board!;
        var names = node.AlsoUses.Select(use => use.Name.Text)
            .Concat(board.Reserved.Select(reserved => reserved.Pin.Text))
            .Concat(node.SharesSpi.Where(other => other.Select?.Pin is not null).Select(other => other.Select!.Pin!.Value));
        return new(
            node.Wiring.Lines().Where(line => !moves(line)).Select(line => line.Pin).Concat(names.Select(board.Find)).Where(pin => pin is not null).Select(pin => pin!.Port),
            StringComparer.Ordinal);
    }

    private static bool Can(Node node, BoardPin pin, string signal) => signal switch
    {
        "irq" => CanRead(node, pin) && node.Board!.Irq?.FallingEdge.Contains(pin.Port, StringComparer.Ordinal) == true,
        "in" => CanRead(node, pin),
        "sck" or "mosi" or "miso" => KeepsGroup(node, pin, signal),
        _ => pin.Can.HasFlag(PinAbilities.Out),
    };

    // An input there could end master mode.
    private static bool CanRead(Node node, BoardPin pin) => pin.Can.HasFlag(PinAbilities.In) && SpiLines.WatchedSelect(node)?.Port != pin.Port;

    // One line may move only to where a unit can still serve all three.
    private static bool KeepsGroup(Node node, BoardPin pin, string signal)
    {
        if (!pin.Can.HasFlag(signal == "miso" ? PinAbilities.In : PinAbilities.Out))
            return false;
        var wiring = node.Wiring;
        if (wiring.IsSoftware)
            return true;
        var sck = signal == "sck" ? pin : wiring.Sck?.Pin;
        var mosi = signal == "mosi" ? pin : wiring.Mosi?.Pin;
        var miso = signal == "miso" ? pin : wiring.Miso?.Pin;
        return sck is not null && mosi is not null && miso is not null
            && SpiLines.UnitsOf(node).Any(unit => SpiFit.Fits(node.Board!, unit, sck, mosi, miso));
    }
}
