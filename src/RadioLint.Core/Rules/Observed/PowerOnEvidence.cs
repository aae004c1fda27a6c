using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>Whether somebody had configured a radio that has lost it.</summary>
internal static class PowerOnEvidence
{
    /// <summary>The last listing of the same run before one that showed a configured radio.</summary>
    public static Listing? LastConfigured(ObservedRadio radio, Listing listing) => radio.Listings.TakeWhile(one => one != listing)
        .LastOrDefault(one => one.Run == listing.Run && one.IsReport == listing.IsReport && ObservedRadio.DifferencesOf(one, radio.Expected).Count == 0);
}
