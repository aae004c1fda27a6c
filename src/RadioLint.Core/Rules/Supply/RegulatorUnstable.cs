using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Supply;

/// <summary>RL2012: less capacitance at a regulator's output than it needs to be stable.</summary>
public sealed class RegulatorUnstable() : Rule(new(
    "RL2012", Severity.Warning, "Regulator's output capacitor below its stability need",
    "the part's least output capacitor; AMS1117 22 uF tantalum (AMS1117 data sheet, stability), RT9193 1 uF (RT9193 data sheet DS9193-17, front page)", "0.1")
{
    Silences = ["RL2101"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            // An adapter has its regulator's capacitor on board, and behind a filter the module's is not the regulator's.
            if (node.Supply is not { From.Value: SupplySource.Regulator, Capacitors: { } written, Filter.Value.IsEmpty: true } supply
                || RadioRail.RegulatorOf(supply) is not { OutputCapacitor: { } least } regulator)
            {
                continue;
            }
            var together = written.Value.Aggregate(new Capacitance(0), (sum, one) => sum + one.Value);
            // Up to what every module needs, RL2101 asks for it.
            if (together >= least.Value || least.Value <= NoBulkCapacitor.Least)
                continue;
            yield return At(
                node, written.IsDefault ? supply.Part!.Place : written.Place,
                written.Value.IsEmpty
                    ? (FormattableString)$"{regulator.Name} of `{node.Label}` has no capacitor at its output; {least.Value} keep it from oscillating"
                    : $"{regulator.Name} of `{node.Label}` has {together} at its output, {new Capacitance(least.Value.Picofarads - together.Picofarads)} less than the {least.Value} that keep it from oscillating",
                $"solder {least.Value} ({least.Note ?? "as its data sheet says"}) beside the module's 10 uF and 100 nF ceramic, and state all under `capacitor`");
        }
    }
}
