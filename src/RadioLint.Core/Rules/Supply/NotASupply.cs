using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Supply;

/// <summary>RL2007: a resistor divider, a diode or an LED stands where a supply should.</summary>
public sealed class NotASupply() : Rule(new(
    "RL2007", Severity.Error, "Divider, diode or LED used as a supply",
    "0.9 uA to 13.5 mA within a millisecond (nRF24L01+ Product Specification 1.0, Table 4): no passive part holds a voltage over that", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Supply.From: { Value: SupplySource.Divider or SupplySource.Diode or SupplySource.Led } from })
                continue;
            var what = from.Value switch { SupplySource.Divider => "a resistor divider", SupplySource.Diode => "a diode", _ => "an LED" };
            yield return At(
                node, from.Place,
                $"the radio of `{node.Label}` is fed through {what}: it sags when the radio draws 13.5 mA and may exceed 3.6 V when it draws 0.9 uA",
                $"use a 3.3 V regulator");
        }
    }
}
