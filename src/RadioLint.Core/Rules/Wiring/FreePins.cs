using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Text;

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
        var signals = SignalLevels.OfController(node);
        var proposed = signal switch { "ce" => board.Wiring?.Ce, "csn" => board.Wiring?.Csn, "irq" => board.Wiring?.Irq, _ => null };
        return board.Pins
            .Where(pin => pin.State is PinState.Free && pin.TakenBy.IsEmpty && !taken.Contains(pin.Port) && (pin.Labels.Length > 0 || pin.HeaderPin is not null)
                && (pin.DomainVoltage is null || signals is null || pin.DomainVoltage == signals) && Can(node, pin, signal))
            .OrderBy(pin => pin.Port == proposed ? 0 : 1);
    }

    /// <summary>The offer to move a line; none where there is no such pin, nothing is written, or nodes of other boards share what is written.</summary>
    public static Fix[] Instead(Network network, Node node, Line line, BoardPin? free)
    {
        if (free is null || line.IsCustomary)
            return [];
        var isShared = !node.Place.Contains(line.Place)
            && network.Nodes.Any(other => other.Board?.Name != node.Board?.Name && other.Wiring.Lines().Any(one => one.Place == line.Place));
        return isShared ? [] : [new(FixGrade.Offered, $"Use {free.Label}", ImmutableArray.Create(Edit.Value(line.Place, free.Label)))];
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
        "irq" => CanRead(node, pin) && node.Board!.Irq?.FallingEdge.Contains(pin.Port, StringComparer.Ordinal) == true && HasOwnInterruptLine(node, pin),
        "in" => CanRead(node, pin),
        "sck" or "mosi" or "miso" => KeepsGroup(node, pin, signal),
        "csn" => pin.Can.HasFlag(PinAbilities.Out) && IsSelectAskedFor(node, pin),
        _ => pin.Can.HasFlag(PinAbilities.Out),
    };

    // Where the system drives CSN, the manifest says by which of the unit's selects.
    private static bool IsSelectAskedFor(Node node, BoardPin pin) =>
        node is not { Board.IsLinux: true, Spi.Select.Value: var select, Wiring: { IsSoftware: false, Unit.Options.Ss: { IsEmpty: false } selects } }
        || (select >= 0 && select < selects.Length && node.Board.Port(selects[select])?.Port == pin.Port);

    // An input there could end master mode.
    private static bool CanRead(Node node, BoardPin pin) => pin.Can.HasFlag(PinAbilities.In) && SpiLines.WatchedSelect(node)?.Port != pin.Port;

    private static bool HasOwnInterruptLine(Node node, BoardPin pin) =>
        pin.ExtiLine is null || InterruptLineShared.Others(node, node.Board!).All(other => other.Pin.ExtiLine != pin.ExtiLine);

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
