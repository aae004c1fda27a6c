using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Supply;

/// <summary>RL2004: the node stops before its battery is empty.</summary>
public sealed class EmptyBatteryTooLow() : Rule(new(
    "RL2004", Severity.Warning, "End-of-life battery below the node's minimum",
    "the highest of the radio's 1.9 V (nRF24L01+ Product Specification 1.0, Table 3), the controller's least supply at its clock and its brown-out setting, against `empty` of battery or " +
    "cells (values from memory); an info up to 0.1 V a cell, own threshold",
    "0.1")
{
    Silences = ["RL2202"],
})
{
    private static readonly Voltage ACell = new(100);

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Battery is not { } battery || RadioRail.Battery(node) is not { } range)
                continue;
            // What not even the nominal voltage satisfies is the matter of RL2001 and RL2014.
            if (BatteryNeeds.Of(node).FirstOrDefault(demand => demand.Least <= range.Nominal) is not { } highest || highest.Least <= range.Low)
                continue;
            var missing = highest.Least - range.Low;
            var cells = BatteryFacts.Count(battery);
            yield return At(
                node, battery.Empty?.Place ?? battery.Cells?.Place ?? battery.Place.FirstLine,
                $"{highest.What} stops at {highest.Least}, {missing} before the battery of `{node.Label}` is empty at {range.Low}{Left(battery, cells, highest.Least, range.Low)}",
                $"lower that demand (clock, brown-out setting, dropout), put a boost converter between, or accept it and state as `empty` where its work ends") with
            { Severity = missing.Millivolts <= ACell.Millivolts * cells ? Severity.Info : Severity.Warning };
        }
    }

    private static string Left(Battery battery, int cells, Voltage least, Voltage empty)
    {
        if (BatteryFacts.Kind(battery) is not { } kind || BatteryFacts.ShareBelow(kind, new(least.Millivolts / cells)) is not { } below
            || BatteryFacts.ShareBelow(kind, new(empty.Millivolts / cells)) is not { } nothing)
        {
            return "";
        }
        var share = (below.Millionths - nothing.Millionths) / 10_000;
        return share == 0 ? ": less than 1 % of the charge is left in it" : FormattableString.Invariant($": about {share} % of the charge is left in it");
    }
}
