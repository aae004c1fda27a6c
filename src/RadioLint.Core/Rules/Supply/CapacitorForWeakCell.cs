using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Supply;

/// <summary>RL2103: a cell with much resistance inside, and too little capacitance to send a packet from.</summary>
public sealed class CapacitorForWeakCell() : Rule(new(
    "RL2103", Severity.Warning, "Capacitor too small for a weak cell",
    "C = I t / dV with the sending current, the longest packet and 0.1 V, own threshold, where the cell's own resistance would let it sag further; CR2032 10 to 40 ohm " +
    "(as quoted from public makers), 11.3 mA and 130 us (nRF24L01+ Product Specification 1.0, Tables 4 and 16)",
    "0.1")
{
    Silences = ["RL2101", "RL2202"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Battery: { } battery, Supply.Capacitors: { } written } || BatteryPath.OfRadio(node) is not { IsDirect: true } || PeakCurrent.Sending(node) is not { } sending)
                continue;
            if (BatteryFacts.MostResistance(battery) is not { } inner)
            {
                yield return Waits(node, "battery.resistance");
                continue;
            }
            var sag = Decoupling.Sag(sending, inner);
            if (sag <= Decoupling.Dip || Decoupling.LongestSending(network.Plan.Of(node)) is not { } lasts)
                continue;
            var together = written.Value.Aggregate(new Capacitance(0), (sum, one) => sum + one.Value);
            var needed = Decoupling.Needed(sending, lasts, Decoupling.Dip);
            if (together >= needed)
                continue;
            yield return At(
                node, written.IsDefault ? battery.Cells?.Place ?? battery.Place.FirstLine : written.Place,
                $"{inner} inside the battery of `{node.Label}` lose {sag} at {sending}; to send for {lasts} within {Decoupling.Dip} the module needs {needed} and has {(written.Value.IsEmpty ? "none" : $"{together}")}",
                $"put {needed} with little leakage across the module, send shorter packets or at a higher rate, or lower the power");
        }
    }
}
