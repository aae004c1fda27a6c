using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL5902: the radio reads back another rate; 250 kbps that read back as 1 Mbps tell of an older part.</summary>
public sealed class RateDiffers() : ObservedRule(new(
    "RL5902", Severity.Error, "Rate reads back otherwise than planned",
    "RF_DR_LOW, bit 5 of RF_SETUP, exists since nRF24L01+ (its Product Specification 1.0, Table 28 p58; nRF24L01 Product Specification 2.0, Table 24 p54)", "0.1"))
{
    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        var mask = radio.Part.SetupRegister.RateMask.Value;
        if (radio.Difference(Registers.RfSetup) is not { } one || (one.Bits & mask) == 0)
            yield break;
        var (found, planned) = (RateOf(radio.Part, one.Listed.Value & mask), RateOf(radio.Part, one.Expected.Planned[0] & mask));
        var isOldPart = planned is DataRate.Kbps250 && found is DataRate.Mbps1;
        yield return At(
            radio, one.Listed.Place,
            $"RF_SETUP of `{radio.Node.Name}` says {found?.InManifest() ?? "a rate that is reserved"}, planned {planned?.InManifest()}{Cause(isOldPart, one, found, planned)}",
            isOldPart
                ? (FormattableString)$"read the marking of the chip: name the part it is under `radio.part`, or plan 1 Mbps for the whole network (RL5001, RL5004)"
                : (FormattableString)$"write RF_SETUP from the node's header; at another rate nobody of the plan hears this node") with
        {
            Related = Planned(radio, Registers.RfSetup, mask),
        };
    }

    private static DataRate? RateOf(RadioPart part, int bits) => part.Rates.FirstOrDefault(rate => rate.Bits == bits)?.Rate;

    private static string Cause(bool isOldPart, RegisterDifference one, DataRate? found, DataRate? planned) =>
        isOldPart ? "; the bit for 250 kbps does not stay set, so this is the earlier part or a look-alike"
        : planned is DataRate.Mbps2 && found is DataRate.Mbps1 && (one.Listed.Value & 0x02) != 0 && (one.Expected.Planned[0] & 0x02) == 0 ? "; bit 1 is set instead of bit 3, which changes the power as well"
        : "";
}
