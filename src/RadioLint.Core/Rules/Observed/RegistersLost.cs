using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Radio;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL2901: a radio that was configured has lost what it held while its node ran on.</summary>
public sealed class RegistersLost() : ObservedRule(new(
    "RL2901", Severity.Error, "Registers lost on a running node",
    "registers are lost when the supply falls below 1.9 V (nRF24L01+ Product Specification 1.0, Table 3 p13, Table 14 p20)", "0.1"))
{
    private const string Remedy =
        "measure the radio's supply while it sends, put 10 uF ceramic at its pins (RL2101) and look at what feeds it (RL2005); let the program read one register back each minute";

    public override IEnumerable<Finding> Check(ObservedRadio radio)
    {
        foreach (var listing in radio.Listings)
        {
            if (PowerOnEvidence.LastConfigured(radio, listing) is not { } before)
                continue;
            var isNow = listing == radio.Listing;
            var lost = ObservedRadio.DifferencesOf(listing, radio.Expected);
            if (radio.IsReset(listing))
            {
                yield return At(
                    radio, listing.Place,
                    $"`{radio.Node.Name}` was configured and holds its power-on values {(isNow ? "now" : "here")}, {lost.Count} of them planned otherwise, without having started anew: the radio's supply has dipped below 1.9 V",
                    $"{Remedy}") with
                {
                    Related = See(before.Place),
                };
                yield break;
            }
            if (lost.Count == 1 && !RegisterMap.IsWide(lost[0].Address) && IsOneBit(lost[0].Bits))
            {
                yield return At(
                    radio, lost[0].Listed.Place,
                    $"{lost[0].Listed.Name} of `{radio.Node.Name}` was as planned and has 1 bit flipped {(isNow ? "now" : "here")}, 0x{lost[0].Listed.Value:X2} instead of 0x{lost[0].Expected.Planned[0]:X2}: the radio's supply has dipped",
                    $"{Remedy}") with
                {
                    Related = See(before.Place),
                };
                yield break;
            }
        }
    }

    private static bool IsOneBit(int bits) => bits != 0 && (bits & (bits - 1)) == 0;

    private static ImmutableArray<RelatedPlace> See(Text.Place place) => ImmutableArray.Create(new RelatedPlace(place, "here it was as planned"));
}
