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
        foreach (var node in network.DistinctNodes)
        {
            var units = SpiLines.UnitsOf(node).ToList();
            // Exchanged data lines have rules of their own.
            if (units.Count == 0 || SpiLines.Of(node)?.FitsSwapped is not null)
                continue;
            var who = node.Spi?.Unit is null ? "no SPI unit" : $"`{node.Spi.Unit.Value}`";
            var can = node.Spi?.Unit is null ? "can" : "cannot";
            foreach (var line in new[] { node.Wiring.Sck, node.Wiring.Mosi, node.Wiring.Miso })
            {
                // A pin that is unknown is RL1003's; the other lines can still be judged.
                if (line?.Pin is not { } pin || units.Exists(unit => SpiFit.CanBe(unit, line.Signal, pin)))
                    continue;
                yield return At(
                    node, line.Place, $"{who} of {node.Board!.Name} {can} use {pin.Both} for `{line.Signal}`",
                    $"use {SpiGroups.Text(node)}, or state `spi: {{ software: true }}`",
                    SpiGroups.Offer(node) is { } fix ? [fix] : []) with
                { Subject = (node, line.Signal) };
            }
        }
    }
}
