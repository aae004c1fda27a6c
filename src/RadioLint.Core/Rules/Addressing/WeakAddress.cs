using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4006: an address that noise or the preamble imitates too easily.</summary>
public sealed class WeakAddress() : Rule(new(
    "RL4006", Severity.Warning, "Address that noise imitates",
    "at least 2 level changes in the whole address, no leading 55 or AA that continues the preamble (nRF24L01+ Product Specification 1.0, 7.3.2); "
    + "bytes not all equal (nRF24L01 Product Specification rev 1.2, table 12: a hint that later sheets dropped); "
    + "at least 4 level changes in the first 16 bits (own threshold: 1.8 % of random addresses have fewer)", "0.1"))
{
    private const int LeastChanges = 2;
    private const int LeastEarlyChanges = 4;
    private const int EarlyBits = 16;

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var places in WrittenAddresses.Wrong(network, place => Weakness(place.Address) is not null))
        {
            var first = places[0];
            yield return WrittenAddresses.About(network, places, At(
                first.Owner, first.Place,
                $"`{first.Address}` is weak: {Weakness(first.Address)!}",
                $"use an address with more changes, or leave it out: derived ones have 6 to 12 in the first 16 bits"));
        }
    }

    private static string? Weakness(Address address)
    {
        if (address.Width is < Address.Narrowest or > Address.Widest)
            return null;
        var (changes, early, first) = (address.LevelChanges(), address.LevelChanges(EarlyBits), address.AirBytes[0]);
        if (changes < LeastChanges)
            return FormattableString.Invariant($"{Count(changes)} in {address.Width * 8} bits, {LeastChanges} are the least");
        if (address.AirBytes.All(one => one == first))
            return FormattableString.Invariant($"all {address.Width} bytes are equal");
        if (first is 0x55 or 0xAA)
            return FormattableString.Invariant($"its first byte, 0x{first:X2}, continues the preamble");
        return early < LeastEarlyChanges
            ? FormattableString.Invariant($"{Count(early)} in the first {EarlyBits} bits, {LeastEarlyChanges} are the least")
            : null;
    }

    private static string Count(int changes) => FormattableString.Invariant($"{changes} level change{(changes == 1 ? "" : "s")}");
}
