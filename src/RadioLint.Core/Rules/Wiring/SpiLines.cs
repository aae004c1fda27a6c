using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>A node's three SPI lines when all are on pins and the hardware is to serve them.</summary>
internal sealed record SpiLines(Node Node, Board Board, Line Sck, Line Mosi, Line Miso)
{
    public static IEnumerable<SpiLines> Of(Network network) =>
        network.DistinctNodes.Select(Of).Where(lines => lines is not null).Select(lines => lines!);

    public static SpiLines? Of(Node node) =>
        node is { Board: { } board, Wiring: { Sck: { Pin: not null } sck, Mosi: { Pin: not null } mosi, Miso: { Pin: not null } miso } } && UnitsOf(node).Any()
            ? new(node, board, sck, mosi, miso)
            : null;

    /// <summary>Units that may serve: the named one, else all but reserved and programmable ones; none where the program makes the SPI.</summary>
    public static IEnumerable<SpiUnit> UnitsOf(Node node) => node switch
    {
        { Board: null } or { Wiring.IsSoftware: true } => [],
        { Spi.Unit: not null, Wiring.Unit: { } named } => [named],
        _ => node.Board.Units.Where(unit => unit.Kind is not (SpiKind.Reserved or SpiKind.Programmable)),
    };

    /// <summary>The pin of the unit's own select where a low level on it, as an input, ends master mode.</summary>
    public static BoardPin? WatchedSelect(Node node) =>
        node is { Board: { } board, Wiring: { IsSoftware: false, Unit.SlaveSelect: { Watched: "always" } watch } wiring }
            ? board.Port(wiring.Set?.Ss ?? watch.Pin)
            : null;

    public IEnumerable<SpiUnit> Units => UnitsOf(Node);

    public bool Fit => Units.Any(unit => SpiFit.Fits(Board, unit, Sck.Pin!, Mosi.Pin!, Miso.Pin!));

    /// <summary>The unit whose data lines would fit if the two were exchanged, or null.</summary>
    public SpiUnit? FitsSwapped => Fit ? null : Units.FirstOrDefault(unit => SpiFit.Fits(Board, unit, Sck.Pin!, Miso.Pin!, Mosi.Pin!));
}
