using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;

namespace RadioLint.Rules.Supply;

/// <summary>RL2003: the battery, when fresh, is above what the radio stands.</summary>
public sealed class FreshBatteryTooHigh() : Rule(new(
    "RL2003", Severity.Error, "Fresh battery above the radio's maximum",
    "3.6 V absolute maximum (nRF24L01+ Product Specification 1.0, Table 2) against the fresh cells (values from memory: alkaline 1.6 V, Li-ion 4.2 V)", "0.1")
{
    Silences = ["RL2001"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Supply.From: { Value: SupplySource.Battery } from, Part.Supply: var limits })
                continue;
            if (RadioRail.Battery(node) is not { } battery)
            {
                yield return Waits(node, "battery.cells");
                continue;
            }
            var most = limits.Absolute.Value.High;
            if (battery.High <= most)
                continue;
            var cells = node.Battery!.Cells?.Value.ToString() ?? "the battery";
            yield return At(
                node, node.Battery.Fresh?.Place ?? node.Battery.Cells?.Place ?? from.Place,
                $"{cells} give{(cells.StartsWith("1 x", StringComparison.Ordinal) || node.Battery.Cells is null ? "s" : "")} {battery.High} when fresh, {battery.High - most} above the {most} that the radio stands",
                $"put a low-drop regulator between, or use cells that stay below {most}");
        }
    }
}
