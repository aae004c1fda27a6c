using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;

namespace RadioLint.Rules.Energy;

/// <summary>RL7107: the radio's lines float while its battery node sleeps.</summary>
public sealed class LinesFloatAsleep() : Rule(new(
    "RL7107", Severity.Warning, "Radio lines float in sleep",
    "inputs at a level, not between: CSN high, CE, SCK and MOSI low; 20 uA to 400 uA seen on some units, bench reports", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Sleep is not { } sleep || BatteryPath.OfRadio(node) is null || SwitchedSupply.Pin(node) is not null)
                continue;
            if (sleep.LinesHeld is not { } held)
            {
                yield return Waits(node, "sleep.lines");
            }
            else if (!held.Value)
            {
                yield return At(
                    node, held.Place,
                    $"the lines of the radio of `{node.Label}` float asleep: an input between its levels draws 20 uA to 400 uA on some units, power-down 0.9 uA",
                    $"hold CSN high and CE, SCK and MOSI low while it sleeps, and pull MISO to one side",
                    Offer("Hold the lines", held.Place, "held"));
            }
        }
    }
}
