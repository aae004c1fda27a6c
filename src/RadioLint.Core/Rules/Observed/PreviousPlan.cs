using RadioLint.Findings;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL1908: the radio holds what an earlier issue wrote.</summary>
public sealed class PreviousPlan() : ObservedRule(new(
    "RL1908", Severity.Info, "Registers are those of the plan before",
    "registers are kept while the supply is on, whatever the controller does (nRF24L01+ Product Specification 1.0, 6.1.2 p22 and 6.1.7 p24)", "0.1"))
{
    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        if (!radio.IsEarlier)
            yield break;
        var first = radio.Differences[0];
        yield return At(
            radio, first.Listed.Place,
            $"`{radio.Node.Name}` holds all {radio.Compared} registers as the plan before had them, {radio.Differences.Count} of which {(radio.Differences.Count == 1 ? "differs" : "differ")} now ({string.Join(", ", radio.Differences.Take(3).Select(one => one.Listed.Name))}{(radio.Differences.Count > 3 ? ", ..." : "")})",
            radio.RunsPresent
                ? (FormattableString)$"take the radio's power away and start the node again: it kept its registers over the controller's restart, and the new program has not written them yet"
                : (FormattableString)$"flash the node with the header of the present plan, then take the radio's power away: it keeps its registers over the controller's restart") with
        {
            Related = Planned(radio, first.Address, RegisterMap.IsWide(first.Address) ? 0xFF : first.Bits),
        };
    }
}
