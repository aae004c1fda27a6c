using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;

namespace RadioLint.Rules.Supply;

/// <summary>RL2201: an amplified module on a cell whose pulses it exceeds.</summary>
public sealed class CoinCellAmplified() : Rule(new(
    "RL2201", Severity.Error, "Coin cell and amplified module",
    "the cell's most in pulses, CR2032 15 mA (as quoted from public makers), against 130 mA while sending (E01-ML01DP5 module specification 1.4, section 2)", "0.1")
{
    Silences = ["RL2004", "RL2103", "RL2202", "RL7101"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { FrontEnd: { } front, Battery: { Cells: { } cells } battery } || BatteryPath.OfRadio(node) is null || PeakCurrent.OfRadio(node) is not { } peak
                || BatteryFacts.Kind(battery)?.Pulse?.Value is not { } pulse || peak <= pulse)
            {
                continue;
            }
            yield return At(
                node, cells.Place,
                $"{front.Name} of `{node.Label}` draws {peak}, {peak - pulse} more than {cells.Value.Kind} cells give in pulses ({pulse})",
                $"use AA cells or a lithium cell behind a low-drop regulator, charged and fused as its maker says; or a module without front end");
        }
    }
}
