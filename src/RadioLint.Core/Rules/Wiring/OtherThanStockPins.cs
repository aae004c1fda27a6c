using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1008: the radio's SPI is not where a start-up that names no pins would put it.</summary>
public sealed class OtherThanStockPins() : Rule(new(
    "RL1008", Severity.Info, "SPI pins other than a stock start-up takes", "the board's customary SPI pins (profiles; common practice, no source)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var lines in SpiLines.Of(network))
        {
            // Linux names its units by device, and a chip without a custom has no stock pins. Pins that cannot serve have rules of their own.
            if (lines is not { Fit: true, Board: { IsLinux: false, Wiring: { IsProposal: false } stock } board })
                continue;
            var pairs = new[] { (Line: lines.Sck, Stock: stock.Sck), (Line: lines.Mosi, Stock: stock.Mosi), (Line: lines.Miso, Stock: stock.Miso) };
            var moved = Array.FindAll(pairs, pair => pair.Line.Pin!.Port != pair.Stock);
            if (moved.Length == 0)
                continue;
            var written = moved.Where(pair => !pair.Line.IsCustomary).Select(pair => (Text.Place?)pair.Line.Place).FirstOrDefault();
            yield return At(
                lines.Node, written ?? lines.Node.Spi?.Unit?.Place ?? lines.Node.BoardPlace,
                $"a start-up of {board.Name} that names no pins takes {Names(moved, pair => board.Port(pair.Stock)?.Both ?? pair.Stock)}; `{lines.Node.Label}` has {Names(moved, pair => pair.Line.Pin!.Both)}",
                $"name the pins, or the unit, in the program before the SPI is switched on");
        }
    }

    private static string Names((Model.Line Line, string Stock)[] moved, Func<(Model.Line Line, string Stock), string> pin) =>
        string.Join(", ", moved.Select(pair => $"{pair.Line.Signal} {pin(pair)}"));
}
