using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Supply;

/// <summary>RL2102: a capacitor is to carry an amplified module that its source cannot.</summary>
public sealed class CapacitorForSupply() : Rule(new(
    "RL2102", Severity.Warning, "Amplified module relies on a capacitor instead of a supply",
    "C = I t / dV with what the source lacks, the longest packet and 0.1 V, own threshold; 130 mA (E01-ML01DP5 module specification 1.4, section 2), 130 us and the packet's time " +
    "(nRF24L01+ Product Specification 1.0, Tables 16 and 19)",
    "0.1"))
{
    // Less is there for the edge of the current, and nobody relies on it.
    private static readonly Capacitance Large = new(47_000_000);

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { FrontEnd: { } front, Supply: { Capacitors: { } written } supply } || PeakCurrent.OfRadio(node) is not { } peak
                || SourceTooWeak.LimitOf(node, supply) is not { } limit || peak <= limit.Most || Decoupling.LongestSending(network.Plan.Of(node)) is not { } lasts)
            {
                continue;
            }
            var together = written.Value.Aggregate(new Capacitance(0), (sum, one) => sum + one.Value);
            var lacks = peak - limit.Most;
            var needed = Decoupling.Needed(lacks, lasts, Decoupling.Dip);
            if (together < Large || together >= needed)
                continue;
            yield return At(
                node, written.Place,
                $"{front.Name} of `{node.Label}` draws {lacks} more than its source gives: over {lasts} {together} dip by {Decoupling.DipOf(lacks, lasts, together)}, for {Decoupling.Dip} it takes {needed}",
                $"use a source of at least {new Current(peak.Nanoamperes * 13 / 10)}; a capacitor is for the edge of the current, and retries follow each other too fast to charge it again");
        }
    }
}
