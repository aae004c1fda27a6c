using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Energy;

/// <summary>RL7104: a regulator's own current empties the battery, whatever the node does.</summary>
public sealed class RegulatorEatsBattery() : Rule(new(
    "RL7104", Severity.Error, "Regulator eats the battery",
    "its own current alone must leave the battery its `runs-for`, and 90 days where none is stated, own threshold; AMS1117 5 mA typical, 11 mA maximum (AMS1117 data sheet, electrical characteristics)", "0.1")
{
    Silences = ["RL7101"],
})
{
    private static readonly Duration Season = new(90 * 86_400_000_000_000);

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Battery is not { } battery)
                continue;
            foreach (var regulator in BatteryRegulator.Of(node))
            {
                if (regulator.Quiescent is not { } own)
                {
                    yield return Waits(node, "supply.quiescent");
                    continue;
                }
                if (BatteryLife.Of(battery, own.Low, own.High) is not { } life)
                {
                    yield return Waits(node, "battery.capacity");
                    continue;
                }
                var target = node.RunsFor?.Value ?? Season;
                if (life.High >= target)
                    continue;
                yield return At(
                    node, regulator.Place,
                    $"{regulator.Name} of `{node.Label}` draws {own} itself: alone it empties the battery in {LongTime.InWords(life)}, not {LongTime.InWords(target)}",
                    $"use a regulator that draws 1 uA to 5 uA, or cells that need none; cut one on the board and state `removed: [regulator]`");
            }
        }
    }
}
