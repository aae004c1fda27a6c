using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Supply;

/// <summary>RL2101: no capacitor at the module that holds the rail up when the radio switches on.</summary>
public sealed class NoBulkCapacitor() : Rule(new(
    "RL2101", Severity.Warning, "No bulk capacitor at the module",
    "4.7 uF ceramic, the example of nRF24L01+ Product Specification 1.0, 10.4; 10 uF plus 100 nF within 1 cm is common practice, no source", "0.1"))
{
    internal static readonly Capacitance Least = new(4_700_000);

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Supply: { Capacitors: { } written } supply })
                continue;
            var together = written.Value.Aggregate(new Capacitance(0), (sum, one) => sum + one.Value);
            if (together >= Least)
                continue;
            var place = written.IsDefault ? supply.From?.Place ?? supply.Place.FirstLine : written.Place;
            yield return At(
                node, place,
                written.Value.IsEmpty
                    ? (FormattableString)$"`{node.Label}` has no capacitor at the radio module; {Least} is the least"
                    : $"`{node.Label}` has {together} at the radio module, {new Capacitance(Least.Picofarads - together.Picofarads)} less than {Least}",
                $"solder 10 uF ceramic and 100 nF across the module's supply pins, and state `capacitor: [10 uF ceramic, 100 nF ceramic]`");
        }
    }
}
