using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1006: no SPI unit of the chip can use the pin for that signal.</summary>
public sealed class PinWithoutSpiRole() : Rule(new(
    "RL1006", Severity.Error, "Pin cannot carry that SPI signal", "the chip's table of SPI pins (profiles); any pin on chips with a pin matrix", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var lines in SpiLines.Of(network))
        {
            if (lines.Fit)
                continue;
            foreach (var line in new[] { lines.Sck, lines.Mosi, lines.Miso })
            {
                if (lines.Units.Any(unit => SpiFit.CanBe(unit, line.Signal, line.Pin!)))
                    continue;
                yield return At(
                    lines.Node, line.Place, $"no SPI unit of {lines.Board.Name} can use {line.Pin!.Both} for `{line.Signal}`",
                    $"use {lines.Proposal()}, or state `spi: {{ software: true }}`");
            }
        }
    }
}
