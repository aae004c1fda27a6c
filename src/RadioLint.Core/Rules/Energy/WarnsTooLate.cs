using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Energy;

/// <summary>RL7108: the node dies before it warns of its battery.</summary>
public sealed class WarnsTooLate() : Rule(new(
    "RL7108", Severity.Warning, "Low-battery warning comes after the node dies",
    "`warn-at` above the battery's empty voltage, the parts' minimum and the upper end of the brown-out window (ATmega328/P data sheet 42735A, table 32-8); 0.2 V above is advised, common practice, no source", "0.1"))
{
    private static readonly Voltage InHand = new(200);

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Battery: { WarnAt: { } warns } } || RadioRail.Battery(node) is not { } battery)
                continue;
            var (what, least) = ("the empty battery", battery.Low);
            foreach (var demand in Demands(node))
            {
                if (demand.Least > least)
                    (what, least) = (demand.What, demand.Least);
            }
            if (warns.Value > least)
                continue;
            var early = least + InHand;
            yield return At(
                node, warns.Place,
                $"`{node.Label}` warns at {warns.Value}, and {what} ends its work at {least}{(warns.Value < least ? $", {least - warns.Value} before" : "")}",
                $"warn at {early}, measured while the radio sends",
                early < battery.High ? [Offer($"Warn at {early}", warns.Place, $"{early}")] : []);
        }
    }

    // A brown-out detector may trip as high as its window reaches.
    private static IEnumerable<BatteryDemand> Demands(Node node)
    {
        foreach (var part in BatteryNeeds.OfParts(node))
            yield return part;
        if (BatteryNeeds.OfBrownOut(node) is { } demand && node.Board!.BrownOut!.Value is { } setting)
            yield return demand with { Least = demand.Least + (BrownOut.Window(setting).High - setting) };
    }
}
