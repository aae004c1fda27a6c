using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Energy;

/// <summary>RL7101: the battery is empty before the next visit.</summary>
public sealed class BatteryTooSmall() : Rule(new(
    "RL7101", Severity.Error, "Battery life below target",
    "`runs-for`; error when even the longest life falls short, warning when the shortest does. Radio by its states (nRF24L01+ Product Specification 1.0, Table 4), controller by its profile, " +
    "70 % to 85 % of the charge, value from memory",
    "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { RunsFor: { } target, Battery: { } battery } || NodeEnergy.Of(network.Plan.Of(node)) is not { } plan)
                continue;
            if (BatteryLife.Of(battery, plan.Least, plan.Most, PeakCurrent.OfRadio(node)) is not { } life)
            {
                yield return Waits(node, "battery.capacity");
                continue;
            }
            // With facts missing the longest life is still a bound, the shortest none.
            if (life.High < target.Value || (life.Low < target.Value && plan.Missing.IsEmpty))
            {
                yield return Short(node, battery, target, life, plan);
            }
            else
            {
                foreach (var key in plan.Missing)
                    yield return Waits(node, key);
            }
        }
    }

    private Finding Short(Node node, Battery battery, Stated<Duration> target, Between<Duration> life, EnergyPlan plan)
    {
        var isCertain = life.High < target.Value;
        var endsOnShelf = BatteryFacts.Kind(battery)?.ShelfLife?.Value == life.High;
        var lacks = LongTime.InWords(target.Value - (isCertain ? life.High : life.Low));
        return At(
            node, target.Place,
            $"the battery of `{node.Label}` lasts {(plan.Missing.IsEmpty ? LongTime.InWords(life) : $"at most {LongTime.InWords(life.High)}")}, {lacks} short of {LongTime.InWords(target.Value)}{(isCertain ? "" : " in the worst case")}; {(isCertain && endsOnShelf ? "the cells keep no longer on a shelf" : Largest(plan))}",
            isCertain && endsOnShelf
                ? (FormattableString)$"use cells that keep longer, or plan the visit earlier"
                : $"lower the first of these, take cells with more charge ({Needed(plan, target.Value)} flow until then at least), or plan the visit earlier") with
        {
            Severity = isCertain ? Severity.Error : Severity.Warning,
            Related = battery.Cells is { } cells ? See(cells.Place, $"the cells") : See(battery.Place.FirstLine, $"the battery"),
        };
    }

    // What takes less than a thousandth explains nothing.
    private static string Largest(EnergyPlan plan) => "most of it goes to " + string.Join(
        ", ", plan.Largest.Take(3).Where(consumer => consumer.High * 1_000 >= plan.Most.Nanoamperes).Select(consumer => $"{consumer.Name} ({Shown(consumer)})"));

    private static string Shown(Consumer consumer)
    {
        var (low, high) = (Rounded(consumer.Low), Rounded(consumer.High));
        return low == high ? high : $"{low} to {high}";
    }

    // Three digits: more would pretend to know them.
    private static string Rounded(decimal nanoamperes)
    {
        var step = 1m;
        while (nanoamperes / step >= 1_000)
            step *= 10;
        return $"{new Current(Quantity.Whole(decimal.Round(nanoamperes / step) * step))}";
    }

    private static Charge Needed(EnergyPlan plan, Duration target) => new(Quantity.Product(plan.Least.Nanoamperes, target.Nanoseconds, 3_600_000_000_000_000_000) * 1_000);
}
