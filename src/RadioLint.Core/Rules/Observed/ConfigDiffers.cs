using RadioLint.Findings;
using RadioLint.Radio;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL5901: role, power, CRC or interrupt mask of CONFIG are not as planned.</summary>
public sealed class ConfigDiffers() : ObservedRule(new(
    "RL5901", Severity.Error, "Role, power-up or CRC in the chip differs from the plan",
    "CONFIG as planned (nRF24L01+ Product Specification 1.0, Table 28 p57); what changes with the role is left out", "0.1"))
{
    private const int PwrUp = 0x02;
    private const int Crc = 0x0C;

    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        if (radio.Difference(Registers.Config) is not { } one)
            yield break;
        yield return At(radio, one.Listed.Place, $"CONFIG of `{radio.Node.Name}`: {FieldsInWords.Of(one)}", Remedy(one)) with
        {
            Related = Planned(radio, Registers.Config, one.Bits),
        };
    }

    private static FormattableString Remedy(RegisterDifference one) =>
        (one.Bits & Crc) != 0 ? (FormattableString)$"write CONFIG from the node's header: with another CRC at one end every packet is thrown away"
        : (one.Bits & PwrUp) != 0 ? (FormattableString)$"power the radio up last, after all other registers, and wait until its crystal runs; a dump taken at rest belongs to `sleep` of the manifest"
        : (FormattableString)$"write CONFIG from the node's header, after whatever else sets the role or the interrupt mask";
}
