using RadioLint.Radio;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>What listings of a damaged bus have in common.</summary>
internal static class BusEvidence
{
    /// <summary>Fewer registers are no proof.</summary>
    public const int FewestRegisters = 3;

    /// <summary>True when each byte of each register is one value.</summary>
    public static bool IsOneValue(Listing listing, byte value) =>
        listing.Count >= FewestRegisters && listing.Registers.All(one => one.Bytes.All(each => each == value));

    /// <summary>The one value of all bytes but STATUS; null when there are several.</summary>
    public static byte? Repeated(Listing listing)
    {
        var others = listing.Registers.Where(one => one.Address != Registers.Status).ToList();
        return others.Count > FewestRegisters && others.TrueForAll(one => one.Bytes.All(each => each == others[0].Value)) ? others[0].Value : null;
    }
}
