using RadioLint.Findings;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL5905: many packets were given up since the channel was written.</summary>
public sealed class PacketsLost() : ObservedRule(new(
    "RL5905", Severity.Warning, "Many packets lost",
    "own rule: PLOS_CNT of 8 or more; it stops at 15 and is cleared when RF_CH is written (nRF24L01+ Product Specification 1.0, 7.4.2 p34, Table 28 p59)", "0.1"))
{
    private const int Many = 8;
    private const int Full = 15;

    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        if (radio.Plan.Sends.IsEmpty || radio.Listing[LiveRegisters.ObserveTx] is not { } one || one.Value >> 4 is not (>= Many and var lost))
            yield break;
        yield return At(
            radio, one.Place,
            $"PLOS_CNT of `{radio.Node.Name}` is {lost}{(lost == Full ? ", where it stops" : "")}: so many packets{(lost == Full ? " or more" : "")} were given up since RF_CH was last written",
            $"write RF_CH again and note the time, look at the counter after so many packets, and tell loss from silence: is the receiver on, and does it have the same fingerprint?");
    }
}
