using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1009: MISO and MOSI stand on each other's pins.</summary>
public sealed class DataLinesSwapped() : Rule(new(
    "RL1009", Severity.Error, "MISO and MOSI look swapped", "the chip's table of SPI pins (profiles): MISO is the controller's data input", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var lines in SpiLines.Of(network))
        {
            if (lines.FitsSwapped is not { NamesAreSwapped: false } unit)
                continue;
            yield return At(
                lines.Node, lines.Mosi.Place,
                $"`mosi` is on {lines.Mosi.Pin!.Both} and `miso` on {lines.Miso.Pin!.Both} of `{lines.Node.Label}`; {unit.Name} has them the other way round",
                $"swap the two: mosi {lines.Miso.Pin.Label}, miso {lines.Mosi.Pin.Label}",
                SwapFix.For(lines) is { } fix ? [fix] : []);
        }
    }
}
