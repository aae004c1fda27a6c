using RadioLint.Findings;
using RadioLint.Radio;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL1903: the radio answers, but not what it was asked.</summary>
public sealed class CommandsDamaged() : ObservedRule(new(
    "RL1903", Severity.Error, "STATUS is plausible and all else is one value",
    "own rule: no two registers of the map need be equal, and 25 of them cannot be (nRF24L01+ Product Specification 1.0, Table 28 p57-63)", "0.1"))
{
    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        if (radio.Listing[Registers.Status] is not { Value: > 0 and < 0x80 } status || BusEvidence.Repeated(radio.Listing) is not { } value)
            yield break;
        yield return At(
            radio, radio.Listing.Place,
            $"STATUS of `{radio.Node.Name}` is a plausible 0x{status.Value:X2}, and all {radio.Listing.Count - 1} other registers read 0x{value:X2}: the radio answers, but hears other commands",
            $"look at MOSI, which may be open, held at one level or on another pin, and at CSN, which must fall before each command and rise after it");
    }
}
