using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Wiring;

/// <summary>RL1212: SCK is faster than a level shifter of transistors and pull-ups follows.</summary>
public sealed class ShifterTooSlow() : Rule(new(
    "RL1212", Severity.Warning, "Slow level shifter in the SPI lines", "about 1 MHz for a transistor with pull-ups (common practice, no source)", "0.1"))
{
    private static readonly Frequency Limit = new(1_000_000);

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Spi: { LevelShifter: { Value: LevelShifter.Transistor } shifter } spi, Wiring.Clock: { } clock } || clock <= Limit)
                continue;
            var slower = SckSteps.UpTo(node, Limit) ?? Limit;
            yield return At(
                node, shifter.Place, $"SCK of `{node.Label}` is {clock}; its level shifter of transistors and pull-ups follows up to about {Limit}",
                $"slow SCK to {slower}, or use a shifter of gates",
                Offer(
                    $"Use {slower} for SCK",
                    [spi.Clock is { } written ? Edit.Value(written.Place, $"{slower}") : KeyEdit.After(spi.Place, shifter.Place, "clock", $"{slower}")]));
        }
    }
}
