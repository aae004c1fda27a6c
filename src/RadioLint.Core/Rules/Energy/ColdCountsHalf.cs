using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Energy;

/// <summary>RL7109: a plan for months that counts on a warm battery.</summary>
public sealed class ColdCountsHalf() : Rule(new(
    "RL7109", Severity.Info, "Year-long plan ignores cold",
    "below 0 degC half of the charge, value from memory, must last `runs-for` where that is above 6 months; CR2032 from -20 degC (as quoted from public makers)", "0.1"))
{
    // Half of 365.25 days.
    private static readonly Duration HalfYear = new(15_778_800_000_000_000);

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Battery: { } battery, RunsFor: { } target } || target.Value <= HalfYear || NodeEnergy.Of(network.Plan.Of(node)) is not { } plan)
                continue;
            if (node.Temperature is not { } range)
            {
                yield return Waits(node, "temperature");
                continue;
            }
            var (coldest, kind) = (range.Value.Low, BatteryFacts.Kind(battery));
            if (kind?.Temperature is { } stands && coldest < stands.Value.Low)
            {
                yield return At(
                    node, range.Place,
                    $"`{node.Label}` may be at {coldest}, {new Temperature(stands.Value.Low.Centi - coldest.Centi)} below the {stands.Value.Low} that {kind.Name} cells are made for",
                    $"use cells that are made for the cold, or keep them where it is warmer; what their maker says about cold governs");
            }
            else if (coldest.Centi < 0 && BatteryLife.Of(battery, plan.Least, plan.Most, PeakCurrent.OfRadio(node)) is { } life && life.Low >= target.Value
                && new Duration(life.Low.Nanoseconds / 1_000_000 * BatteryLife.Cold.Millionths) is var cold && cold < target.Value)
            {
                yield return At(
                    node, target.Place,
                    $"at {coldest} about half of the charge of `{node.Label}` counts: {LongTime.InWords(cold)} instead of {LongTime.InWords(target.Value)}",
                    $"plan the visit before the cold months, take cells with twice the charge, or lithium cells, which lose less; self-discharge is counted already");
            }
        }
    }
}
