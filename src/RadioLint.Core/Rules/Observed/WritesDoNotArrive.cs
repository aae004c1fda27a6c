using RadioLint.Findings;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL1906: the radio reads well, and holds what it has after power-on.</summary>
public sealed class WritesDoNotArrive() : ObservedRule(new(
    "RL1906", Severity.Error, "Power-on values although the node has configured its radio",
    "the values after power-on (nRF24L01+ Product Specification 1.0, Table 28 p57-63)", "0.1"))
{
    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        if (!radio.IsPowerOn || PowerOnEvidence.LastConfigured(radio, radio.Listing) is not null)
            yield break;
        var shown = PowerOn.Static(radio.Listing, radio.Part).Count();
        yield return At(
            radio, radio.Listing.Place,
            radio.Seen.Boot is null
                ? (FormattableString)$"all {shown} registers of `{radio.Node.Name}` hold their power-on values; {radio.Differences.Count} of them are planned otherwise"
                : (FormattableString)$"`{radio.Node.Name}` has configured its radio, and all {shown} registers hold their power-on values; {radio.Differences.Count} of them are planned otherwise",
            $"look at MOSI first (reading needs less of it), then whether CSN stays low for a whole transfer of command and data, the clock (1 MHz for a trial), and whether the radio's supply was off since");
    }
}
