using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Supply;

/// <summary>RL2013: the ripple of a switching converter goes straight into the radio.</summary>
public sealed class SwitcherWithoutFilter() : Rule(new(
    "RL2013", Severity.Warning, "Radio directly on a switching converter",
    "a filter or a linear regulator between converter and radio (a well-filtered supply, apart from that of digital circuits: nRF24L01+ Product Specification 1.0, 10.4)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Supply is not { From: { Value: SupplySource.Converter } from, Filter.Value.IsEmpty: true } supply)
                continue;
            yield return At(
                node, supply.Part?.Place ?? from.Place,
                $"the radio of `{node.Label}` hangs on a switching converter with neither filter nor linear regulator between: its ripple shortens the range",
                $"put a linear regulator behind the converter, or `filter: bead` or `10 ohm` before at least 10 uF at the module; or run the radio from the cells where their voltage fits");
        }
    }
}
