using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Wiring;

/// <summary>Complete groups of SPI pins to propose for a node: those in nobody's way first, then those with the fewest wires to move.</summary>
internal static class SpiGroups
{
    /// <summary>The two best groups: `sck D13, mosi D11, miso D12 (SPI)`.</summary>
    public static string Text(Node node)
    {
        var board = node.Board!;
        var groups = Nearest(node).Take(2).ToList();
        return groups.Count > 0
            ? string.Join(" or ", groups.Select(group => Text(board, group.Set, group.Unit.Name)))
            : board.Wiring is { } wiring ? Text(board, Customary(wiring), wiring.Spi) : "pins of one unit";
    }

    /// <summary>Moves the written lines to the best group that leaves the unwritten ones where they are.</summary>
    public static Fix? Offer(Node node)
    {
        foreach (var (unit, set) in Nearest(node))
        {
            var moves = Pairs(node, set).Where(pair => pair.Line?.Pin?.Port != pair.Port).ToList();
            if (moves.Count == 0 || Obstacles(node, set) > 0 || moves.Exists(move => move.Line is not { IsCustomary: false }))
                continue;
            var edits = moves.Select(move => Edit.Value(move.Line!.Place, node.Board!.Port(move.Port)!.Label));
            return new(FixGrade.Offered, $"Use {Text(node.Board!, set, unit.Name)}", System.Collections.Immutable.ImmutableArray.CreateRange(edits));
        }
        return null;
    }

    private static IEnumerable<(SpiUnit Unit, SpiSet Set)> Nearest(Node node)
    {
        var usual = node.Board?.Wiring is { } wiring ? Customary(wiring) : null;
        return SpiLines.UnitsOf(node).SelectMany(unit => unit.Sets.Select(set => (unit, set)))
            .Where(one => Pairs(node, one.set).All(pair => node.Board!.Port(pair.Port) is not null))
            .OrderBy(one => Obstacles(node, one.set))
            .ThenBy(one => Pairs(node, one.set).Count(pair => pair.Line?.Pin?.Port != pair.Port))
            .ThenBy(one => one.set.Sck == usual?.Sck && one.set.Mosi == usual.Mosi ? 0 : 1);
    }

    private static (Line? Line, string Port)[] Pairs(Node node, SpiSet set) =>
        [(node.Wiring.Sck, set.Sck), (node.Wiring.Mosi, set.Mosi), (node.Wiring.Miso, set.Miso)];

    // Pins of the group that are not free, or that something else is on.
    private static int Obstacles(Node node, SpiSet set)
    {
        var taken = FreePins.Taken(node, line => line.Signal is "sck" or "mosi" or "miso");
        return Pairs(node, set).Count(pair => taken.Contains(pair.Port) || node.Board!.Port(pair.Port)!.State is not PinState.Free);
    }

    private static SpiSet Customary(CanonicalWiring wiring) => new("", wiring.Sck, wiring.Mosi, wiring.Miso, wiring.Ss);

    private static string Text(Board board, SpiSet set, string unit) =>
        $"sck {board.Port(set.Sck)?.Label ?? set.Sck}, mosi {board.Port(set.Mosi)?.Label ?? set.Mosi}, miso {board.Port(set.Miso)?.Label ?? set.Miso} ({unit})";
}
