using System.Collections.Immutable;
using RadioLint.Facts;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Rules.Observed;

namespace RadioLint.Readback;

/// <summary>Judges one node: digest, bus, moment, fields, in this order. What a stage finds keeps the later ones quiet: one cause, one finding.</summary>
internal sealed class NodeJudge(
    Network network, Node node, ObservedNode seen, ImmutableArray<IssuedImage> issued, List<Finding> findings, List<(Node, BootReport, bool)> told)
{
    private readonly NodePlan plan = network.Plan.Of(node);

    public JudgedNode Judge()
    {
        var facts = NodeFacts.Of(network, plan);
        if (facts is null || node.Part is not { } part || Expected.Of(plan) is not { } planned)
            return Short(NodeVerdict.NoPlan);
        var digest = Fingerprint.OfNode(facts).ToDigest();
        var running = Running(digest, part, planned, facts);
        if (seen.Last is not { } last)
            return Short(NodeVerdict.NoListing);

        var order = last.IsReport ? null : OrderThatFits(last, planned);
        var listings = order is { } known ? [.. seen.Listings.Select(one => one.In(known))] : seen.Listings;
        var radio = new ObservedRadio
        {
            Seen = seen, Plan = plan, Part = part, Listings = listings, Listing = listings[IndexOf(last)],
            Expected = running ?? planned,
            RunsPresent = seen.Boot?.Digest == digest,
            Earlier = ImmutableArray.CreateRange(issued.Where(one => one.Digest != digest).Select(one => Expected.Of(plan, part, one.Frames)).OfType<Expected>()),
        };
        var verdict = Stages(radio, isOther: running is not null);
        var isRead = verdict is not NodeVerdict.BusAtFault;
        return new(
            seen, node.Name, verdict, radio.Listing, radio.Compared, radio.Differences.Count, order,
            isRead ? ImmutableArray.CreateRange(LiveRegisters.Of(radio.Listing, part)) : ImmutableArray<(ListedRegister, string)>.Empty);
    }

    private NodeVerdict Stages(ObservedRadio radio, bool isOther)
    {
        if (Ask(ObservedRules.OfBus, radio).Count > 0)
            return NodeVerdict.BusAtFault;
        // A moment that is past explains nothing of the registers as they are now.
        var isNow = Ask(ObservedRules.OfMoment, radio).Exists(finding => radio.Listing.Registers.Any(one => one.Place == finding.Place));
        var fields = isNow ? [] : Ask(ObservedRules.OfFields, radio);
        Ask(ObservedRules.OfLive, radio);
        return isNow ? NodeVerdict.OtherMoment
            : radio.Differences.Count > 0 || fields.Exists(finding => finding.Severity is Severity.Error) ? NodeVerdict.Differs
            : radio.Compared == 0 ? NodeVerdict.NothingToCompare
            : isOther ? NodeVerdict.OtherIssue
            : NodeVerdict.AsPlanned;
    }

    // The first rule of a group that finds something has found the cause, but for fields, which differ each for itself.
    private List<Finding> Ask(ImmutableArray<ObservedRule> rules, ObservedRadio radio)
    {
        var found = new List<Finding>();
        foreach (var rule in rules)
        {
            found.AddRange(rule.Check(radio));
            if (found.Count > 0 && rules == ObservedRules.OfBus)
                break;
        }
        findings.AddRange(found);
        return found;
    }

    // What an earlier issue wrote, when the node says that it runs that; null when it runs the present plan, or nobody knows.
    private Expected? Running(string digest, Hardware.RadioPart part, Expected planned, NodeFacts facts)
    {
        if (seen.Boot is not { } boot)
            return null;
        told.Add((node, boot, boot.Digest == digest));
        if (boot.Digest == digest)
            return null;
        var issue = issued.FirstOrDefault(one => one.Digest == boot.Digest);
        var then = issue is null ? null : Expected.Of(plan, part, issue.Frames);
        var isOtherNetwork = boot.Fingerprint != Fingerprint.OfNetwork(node.Air, facts.Network.Payloads).ToDigest();
        findings.Add(OtherConfiguration.At(node, boot, digest, isOtherNetwork, issue, then is null ? [] : Changes(then, planned)));
        return then;
    }

    // Registers by name, values as they were and as they are to be.
    private static List<string> Changes(Expected then, Expected now) =>
    [
        .. now.Registers.Where(one => then[one.Address] is { } was && !ExpectedRegister.IsAlike(was.Planned, one.Planned, one.Mask))
            .Select(one => $"{RegisterMap.NameOf(one.Address)} {Hex.Number(then[one.Address]!.Planned)}, now {Hex.Number(one.Planned)}"),
        .. now.Registers.Where(one => then[one.Address] is null).Select(one => $"{RegisterMap.NameOf(one.Address)} not written, now {Hex.Number(one.Planned)}"),
        .. then.Registers.Where(one => now[one.Address] is null).Select(one => $"{RegisterMap.NameOf(one.Address)} {Hex.Number(one.Planned)}, now not written"),
    ];

    // Null when both fit as well, as with addresses that read alike from both ends.
    private static AddressOrder? OrderThatFits(Listing listing, Expected planned)
    {
        var (spi, air) = (Fitting(listing.In(AddressOrder.Spi), planned), Fitting(listing.In(AddressOrder.Air), planned));
        return spi == air ? null : spi > air ? AddressOrder.Spi : AddressOrder.Air;
    }

    private static int Fitting(Listing listing, Expected planned) =>
        listing.Registers.Count(one => RegisterMap.IsWide(one.Address) && one.Bytes.Length > 1 && (planned[one.Address]?.Fits(one) ?? false));

    private int IndexOf(Listing listing)
    {
        var all = seen.Listings;
        for (var i = all.Count - 1; i > 0; i--)
        {
            if (ReferenceEquals(all[i], listing))
                return i;
        }
        return 0;
    }

    private JudgedNode Short(NodeVerdict verdict) => new(seen, node.Name, verdict, null, 0, 0, null, ImmutableArray<(ListedRegister, string)>.Empty);
}
