using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Supply;

/// <summary>RL2202: while the radio works, a nearly empty battery sags below what the node needs.</summary>
public sealed class PulseSagsBattery() : Rule(new(
    "RL2202", Severity.Warning, "Battery sags below minimum in the pulse",
    "empty voltage less peak current x inner resistance at least the node's minimum (Ohm's law); alkaline AA about 1 ohm near its end, value from memory", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Battery is not { } battery || RadioRail.Battery(node) is not { } range || BatteryPath.OfRadio(node) is not { HasConverter: false } || PeakCurrent.OfRadio(node) is not { } radio
                || BatteryNeeds.Of(node).FirstOrDefault(demand => demand.Least <= range.Nominal) is not { } highest)
            {
                continue;
            }
            if (BatteryFacts.MostResistance(battery) is not { } inner)
            {
                yield return Waits(node, "battery.resistance");
                continue;
            }
            var controller = BatteryPath.OfController(node) is null ? new Current(0) : ControllerCurrent.Awake(node)?.High ?? new Current(0);
            var peak = radio + controller;
            var sag = Decoupling.Sag(peak, inner);
            if (sag > Decoupling.Dip && CarriesThePulse(network, node, peak))
                sag = Decoupling.Dip;
            if (range.Low - sag >= highest.Least)
                continue;
            yield return At(
                node, battery.Empty?.Place ?? battery.Cells?.Place ?? battery.Place.FirstLine,
                $"at {range.Low} the battery of `{node.Label}` sags to {range.Low - sag} under {peak} ({inner} inside), {highest.Least - (range.Low - sag)} below the {highest.Least} of {highest.What}",
                $"count it as empty at {highest.Least + sag}, use cells with less resistance, or put a larger capacitor at the module");
        }
    }

    private static bool CarriesThePulse(Network network, Node node, Current peak) =>
        Decoupling.LongestSending(network.Plan.Of(node)) is { } lasts && node.Supply?.Capacitors is { } written
        && written.Value.Aggregate(new Capacitance(0), (sum, one) => sum + one.Value) >= Decoupling.Needed(peak, lasts, Decoupling.Dip);
}
