using System.Globalization;
using RadioLint.Findings;
using RadioLint.Radio;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL3901: the radio is tuned to another channel.</summary>
public sealed class ChannelDiffers() : ObservedRule(new(
    "RL3901", Severity.Error, "Channel in the chip differs from the plan",
    "RF_CH holds the planned channel (nRF24L01+ Product Specification 1.0, 6.3 p25, Table 28 p58)", "0.1"))
{
    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        if (radio.Difference(Registers.RfCh) is not { } one)
            yield break;
        var (found, planned) = (one.Listed.Value & 0x7F, one.Expected.Planned[0]);
        yield return At(
            radio, one.Listed.Place,
            $"RF_CH of `{radio.Node.Name}` is {found}, {2400 + found} MHz, planned {planned}, {2400 + planned} MHz{Cause(radio, found, planned)}",
            $"take the channel from the node's header in whatever writes RF_CH, and read it back; until then no node of the plan hears this one") with
        {
            Related = Planned(radio, Registers.RfCh),
        };
    }

    private static string Cause(ObservedRadio radio, int found, int planned) =>
        PowerOn.Reset(radio.Part, Registers.RfCh) is [var reset] && found == reset ? "; that is the power-on value"
        : found.ToString("X", CultureInfo.InvariantCulture) == planned.ToString(CultureInfo.InvariantCulture) ? FormattableString.Invariant($"; that is {planned} read as hexadecimal")
        : found.ToString(CultureInfo.InvariantCulture) == planned.ToString("X", CultureInfo.InvariantCulture) ? FormattableString.Invariant($"; that is 0x{planned:X2} read as decimal")
        : "";
}
