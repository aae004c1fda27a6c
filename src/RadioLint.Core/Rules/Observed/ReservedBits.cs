using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL1907: bits that must stay zero are not, or the test registers were written.</summary>
public sealed class ReservedBits() : ObservedRule(new(
    "RL1907", Severity.Warning, "Reserved bits are set, or test registers changed",
    "reserved bits are 0, and registers 0x18 to 0x1B must not be written (nRF24L01+ Product Specification 1.0, 9.1 p57, Table 28)", "0.1"))
{
    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        foreach (var one in radio.Listing.Registers.Where(one => !RegisterMap.IsWide(one.Address)))
        {
            if ((one.Value & radio.Part.ZeroBitsOf(one.Name)) is > 0 and var set)
            {
                yield return At(
                    radio, one.Place,
                    $"{one.Name} of `{radio.Node.Name}` reads 0x{one.Value:X2}, and of its bits 0x{set:X2} is reserved and reads 0 in a sound {radio.Part.Name}",
                    $"write 0 there; where nobody writes it, look for another part under this name, or for bits that change on the bus");
            }
            if (IsTest(radio, one) && radio.Before.LastOrDefault(before => before[one.Address] is not null)?[one.Address] is { } was && was.Value != one.Value)
            {
                yield return At(
                    radio, one.Place,
                    $"test register {one.Name} of `{radio.Node.Name}` has changed from 0x{was.Value:X2} to 0x{one.Value:X2}",
                    $"take every write to 0x18 to 0x1B out of the program, and take the radio's power away once: it may malfunction until then") with
                {
                    Related = ImmutableArray.Create(new RelatedPlace(was.Place, "the listing before")),
                };
            }
        }
    }

    private static bool IsTest(ObservedRadio radio, ListedRegister one) => one.Address >= radio.Part.TestRegisters.First && one.Address <= radio.Part.TestRegisters.Last;
}
