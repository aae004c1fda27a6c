using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>A node's three SPI lines when all are on pins and the hardware is to serve them.</summary>
internal sealed record SpiLines(Node Node, Board Board, Line Sck, Line Mosi, Line Miso)
{
    public static IEnumerable<SpiLines> Of(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is { Board: { } board, Wiring: { IsSoftware: false, Sck: { Pin: not null } sck, Mosi: { Pin: not null } mosi, Miso: { Pin: not null } miso } }
                && !board.Units.IsEmpty)
            {
                yield return new(node, board, sck, mosi, miso);
            }
        }
    }

    /// <summary>Units that may serve: the named one, else all but reserved and programmable ones.</summary>
    public IEnumerable<SpiUnit> Units => Node.Spi?.Unit is not null && Node.Wiring.Unit is { } named
        ? [named]
        : Board.Units.Where(unit => unit.Kind is not (SpiKind.Reserved or SpiKind.Programmable));

    public bool Fit => Units.Any(unit => SpiFit.Fits(Board, unit, Sck.Pin!, Mosi.Pin!, Miso.Pin!));

    /// <summary>The unit whose data lines would fit if the two were exchanged, or null.</summary>
    public SpiUnit? FitsSwapped => Fit ? null : Units.FirstOrDefault(unit => SpiFit.Fits(Board, unit, Sck.Pin!, Miso.Pin!, Mosi.Pin!));

    /// <summary>The sets to propose, the customary one first: `D13, D11, D12 (SPI)`.</summary>
    public string Proposal()
    {
        var wiring = Board.Wiring;
        var sets = Units.SelectMany(unit => unit.Sets.Select(set => (unit, set))).ToList();
        var texts = sets.OrderBy(one => one.set.Sck == wiring?.Sck && one.set.Mosi == wiring.Mosi ? 0 : 1).Take(2).Select(one => Text(one.set.Sck, one.set.Mosi, one.set.Miso, one.unit.Name)).ToList();
        return texts.Count == 0 && wiring is not null ? Text(wiring.Sck, wiring.Mosi, wiring.Miso, wiring.Spi) : string.Join(" or ", texts);
    }

    private string Text(string sck, string mosi, string miso, string unit) =>
        $"sck {Board.Port(sck)?.Label ?? sck}, mosi {Board.Port(mosi)?.Label ?? mosi}, miso {Board.Port(miso)?.Label ?? miso} ({unit})";
}
