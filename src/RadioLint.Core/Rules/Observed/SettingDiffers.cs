using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Radio;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL5903: acknowledge, retries, lengths, features, power or test bits are not as planned.</summary>
public sealed class SettingDiffers() : ObservedRule(new(
    "RL5903", Severity.Error, "Link setting in the chip differs from the plan",
    "SETUP_RETR, EN_AA, RF_SETUP, RX_PW_Px, DYNPD and FEATURE as planned (nRF24L01+ Product Specification 1.0, Table 28 p57-63)", "0.1"))
{
    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        foreach (var one in radio.Differences)
        {
            var bits = one.Address switch
            {
                Registers.EnAa or Registers.SetupRetr or Registers.Dynpd or Registers.Feature => 0xFF,
                >= Registers.RxPwP0 and <= Registers.RxPwP0 + 5 => 0xFF,
                Registers.RfSetup => ~radio.Part.SetupRegister.RateMask.Value & 0xFF,
                _ => 0,
            };
            if (RegisterMap.IsWide(one.Address) || (one.Bits & bits) == 0 || IsOfRate(radio.Part, one))
                continue;
            yield return At(
                radio, one.Listed.Place,
                one.Address == Registers.RfSetup
                    ? (FormattableString)$"RF_SETUP of `{radio.Node.Name}`: {SetupInWords(radio.Part, one)}"
                    : (FormattableString)$"{one.Listed.Name} of `{radio.Node.Name}`: {FieldsInWords.Of(one, bits)}",
                Remedy(radio, one)) with
            {
                Related = Planned(radio, one.Address, one.Bits & bits),
            };
        }
    }

    // Bit 1 set for bit 3 changes rate and power by one mistake, which RL5902 tells.
    private static bool IsOfRate(RadioPart part, RegisterDifference one) =>
        one.Address == Registers.RfSetup && (one.Bits & part.SetupRegister.RateMask.Value) != 0 && (one.Bits & ~part.SetupRegister.RateMask.Value & 0xFF & ~0x02) == 0
        && (one.Listed.Value & 0x02) != 0;

    private static string SetupInWords(RadioPart part, RegisterDifference one)
    {
        var setup = part.SetupRegister;
        var (found, planned) = (one.Listed.Value, one.Expected.Planned[0]);
        var parts = new List<string>();
        if ((one.Bits & setup.PowerMask.Value) != 0)
            parts.Add(FormattableString.Invariant($"power is {PowerOf(part, found)}, planned {PowerOf(part, planned)}"));
        foreach (var (name, mask) in new[] { ("CONT_WAVE", setup.Carrier?.Value ?? 0), ("PLL_LOCK", setup.PllLock.Value), ("LNA_HCURR", setup.ReceiveBoost?.Value ?? 0) })
        {
            if ((one.Bits & mask) != 0)
                parts.Add(FormattableString.Invariant($"{name} is {((found & mask) == 0 ? 0 : 1)}, planned {((planned & mask) == 0 ? 0 : 1)}"));
        }
        return parts.Count == 0 ? FormattableString.Invariant($"bits 0x{one.Bits:X2} differ") : string.Join("; ", parts);
    }

    private static string PowerOf(RadioPart part, int register) =>
        part.PowerSteps.FirstOrDefault(step => step.Bits == (register & part.SetupRegister.PowerMask.Value))?.Step.ToString() ?? "a step that the part lacks";

    private static FormattableString Remedy(ObservedRadio radio, RegisterDifference one)
    {
        var setup = radio.Part.SetupRegister;
        if (one.Address is Registers.Dynpd or Registers.Feature && radio.Listing[Registers.Dynpd]?.Value is null or 0 && radio.Listing[Registers.Feature]?.Value is null or 0)
            return $"read the marking of the chip: the earlier part keeps DYNPD and FEATURE at 0 until it is unlocked (`radio: {{ part: nRF24L01 }}`); else write both from the node's header";
        if (one.Address == Registers.RfSetup && (one.Bits & one.Listed.Value & ((setup.Carrier?.Value ?? 0) | setup.PllLock.Value)) != 0)
            return $"switch the radio off and clear the test bits at once: a carrier without end disturbs everybody on the channel (RL3106); the rules of the place of use govern";
        if (one.Address == Registers.RfSetup)
            return $"write RF_SETUP from the node's header; more power than planned may be more than the place of use allows";
        return $"write {one.Listed.Name} from the node's header, and read it back";
    }
}
