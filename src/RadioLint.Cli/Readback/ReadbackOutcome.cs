using System.Collections.Immutable;
using RadioLint.Cli.Output;
using RadioLint.Findings;
using RadioLint.Readback;

namespace RadioLint.Cli.Readback;

/// <summary>What a run of `readback` came to.</summary>
internal sealed record ReadbackOutcome(LogContent Log, Judgement Judgement)
{
    public ImmutableArray<Finding> Findings => Judgement.Findings;

    public int Listings => Log.Nodes.Sum(node => node.ListingCount);
}

/// <summary>Verdicts in words, the same for every form of output.</summary>
internal static class VerdictWords
{
    /// <summary>As JSON has it.</summary>
    public static string Word(NodeVerdict verdict) => verdict switch
    {
        NodeVerdict.AsPlanned => "as-planned",
        NodeVerdict.NothingToCompare => "nothing-to-compare",
        NodeVerdict.Differs => "differs",
        NodeVerdict.BusAtFault => "bus-at-fault",
        NodeVerdict.OtherMoment => "other-moment",
        NodeVerdict.OtherIssue => "other-issue",
        NodeVerdict.NoListing => "no-listing",
        _ => "no-plan",
    };

    /// <summary>As a person reads it, with how much was looked at.</summary>
    public static string Sentence(JudgedNode node)
    {
        var compared = $"{TextReport.Count(node.Compared, "register")} compared";
        var says = node.Verdict switch
        {
            NodeVerdict.AsPlanned => $"as planned, {compared}",
            NodeVerdict.NothingToCompare => "the plan leaves all registers that were read free",
            NodeVerdict.Differs => node.Different == 0 ? $"differs from the plan, though in none of {compared}" : FormattableString.Invariant($"differs from the plan in {node.Different} of {compared}"),
            NodeVerdict.BusAtFault => "the bus is at fault, so nothing can be said of the registers",
            NodeVerdict.OtherMoment => "the registers are not those of a configured radio",
            NodeVerdict.OtherIssue => $"as the earlier issue has it that the node runs, {compared}",
            NodeVerdict.NoListing => "has told no registers",
            _ => "has no complete plan to compare with",
        };
        return node.Judged is { } listing ? $"{says} ({Extent(node, listing)})" : says;
    }

    public static string Words(AddressOrder order) => order is AddressOrder.Air ? "first byte on air first" : "low byte first, as SPI carries them";

    private static string Extent(JudgedNode node, Listing listing)
    {
        var which = node.Seen.ListingCount > 1 ? FormattableString.Invariant($", one of {node.Seen.ListingCount} listings") : "";
        var (from, to) = (listing.Place.From.Line, listing.LastLine);
        var order = node.Order is { } known ? $", addresses {Words(known)}" : "";
        return FormattableString.Invariant($"{TextReport.Count(listing.Count, "register")} read{which}, {(from == to ? $"line {from}" : $"lines {from} to {to}")}{order}");
    }
}
