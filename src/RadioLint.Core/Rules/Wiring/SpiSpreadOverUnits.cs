using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1007: each pin could be an SPI line, but no single unit serves the three together.</summary>
public sealed class SpiSpreadOverUnits() : Rule(new(
    "RL1007", Severity.Error, "SPI lines spread over several controllers", "the chip's table of SPI pins (profiles): one unit, one set", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var lines in SpiLines.Of(network))
        {
            var each = new[] { lines.Sck, lines.Mosi, lines.Miso };
            if (lines.Fit || lines.FitsSwapped is not null || each.Any(line => !lines.Units.Any(unit => SpiFit.CanBe(unit, line.Signal, line.Pin!))))
                continue;
            var pins = string.Join(", ", each.Select(line => $"{line.Signal} {line.Pin!.Label} ({Names(lines, line)})"));
            yield return At(
                lines.Node, lines.Mosi.IsCustomary ? lines.Sck.Place : lines.Mosi.Place,
                $"no single SPI unit of {lines.Board.Name} serves these pins: {pins}", $"use {SpiGroups.Text(lines.Node)}",
                SpiGroups.Offer(lines.Node) is { } fix ? [fix] : []);
        }
    }

    private static string Names(SpiLines lines, Line line) =>
        string.Join(" or ", lines.Units.Where(unit => SpiFit.CanBe(unit, line.Signal, line.Pin!)).Select(unit => unit.Name));
}
