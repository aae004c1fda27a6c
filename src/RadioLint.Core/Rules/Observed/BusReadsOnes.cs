using RadioLint.Findings;
using RadioLint.Radio;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL1902: ones come back where the radio never has any.</summary>
public sealed class BusReadsOnes() : ObservedRule(new(
    "RL1902", Severity.Error, "Every register reads 0xFF, or STATUS has bit 7 set",
    "bit 7 of STATUS is always 0 (nRF24L01+ Product Specification 1.0, Table 28 p59)", "0.1"))
{
    private const byte Reserved = 0x80;

    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        var status = radio.Listing[Registers.Status];
        var isAll = BusEvidence.IsOneValue(radio.Listing, 0xFF);
        if (!isAll && (status is null || (status.Value & Reserved) == 0))
            yield break;
        yield return At(
            radio, isAll ? radio.Listing.Place : status!.Place,
            isAll ? (FormattableString)$"all {radio.Listing.Count} registers of `{radio.Node.Name}` read 0xFF: MISO is high or open all the time"
                : (FormattableString)$"STATUS of `{radio.Node.Name}` reads 0x{status!.Value:X2}, and a radio never sets its bit 7",
            $"look at CSN first, whether it falls for each transfer, then MISO and the radio's supply; take the radio's power away and give it back: a reset of the controller alone does not free one that hangs");
    }
}
