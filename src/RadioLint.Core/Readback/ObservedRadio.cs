using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Readback;

/// <summary>What was issued for a node at some time.</summary>
/// <param name="Digest">Of the node then.</param>
/// <param name="Frames">Its frame table, each frame as hex.</param>
public sealed record IssuedImage(string Digest, ImmutableArray<string> Frames);

/// <summary>A register that holds nothing that it may.</summary>
public sealed record RegisterDifference(ListedRegister Listed, ExpectedRegister Expected)
{
    public byte Address => Listed.Address;

    /// <summary>Bits that differ, of a register of one byte.</summary>
    public int Bits => (Listed.Value ^ Expected.Planned[0]) & Expected.Mask;
}

/// <summary>One radio as its node's log shows it, beside what it should hold: all that a rule on listings looks at.</summary>
public sealed class ObservedRadio
{
    /// <summary>Registers that the plan must have otherwise before their power-on values tell of an empty radio.</summary>
    public const int FewestPlannedOtherwise = 2;

    /// <summary>What the log tells of the node.</summary>
    public required ObservedNode Seen { get; init; }

    public required NodePlan Plan { get; init; }

    public required RadioPart Part { get; init; }

    /// <summary>The node's listings that are kept, oldest first, addresses in SPI order.</summary>
    public required IReadOnlyList<Listing> Listings { get; init; }

    /// <summary>The listing to judge, the last whole one of them.</summary>
    public required Listing Listing { get; init; }

    /// <summary>What the program that runs there should have written: by the plan, or by the earlier issue that it says it is.</summary>
    public required Expected Expected { get; init; }

    /// <summary>What other issues wrote, the latest first; none that equals the plan.</summary>
    public ImmutableArray<Expected> Earlier { get; init; } = ImmutableArray<Expected>.Empty;

    /// <summary>True when the node says that it runs the present plan's program.</summary>
    public bool RunsPresent { get; init; }

    public Node Node => Plan.Node;

    /// <summary>The listings before it, oldest first.</summary>
    public IEnumerable<Listing> Before => Listings.TakeWhile(one => one != Listing);

    /// <summary>True when all registers hold their power-on values and the plan has others: a plan may share some of them.</summary>
    public bool IsPowerOn => IsReset(Listing);

    /// <summary>The same of any listing. DYNPD and FEATURE say nothing: the earlier part keeps them at 0 until it is unlocked.</summary>
    public bool IsReset(Listing listing) => PowerOn.Fits(listing, Part)
        && DifferencesOf(listing, Expected).Count(one => one.Address is not (Radio.Registers.Dynpd or Radio.Registers.Feature)) >= FewestPlannedOtherwise;

    /// <summary>True when the registers are those of an earlier issue.</summary>
    public bool IsEarlier => Differences.Count > 0 && Earlier.Any(issue => DifferencesOf(Listing, issue).Count == 0);

    /// <summary>Registers that differ, in the order of addresses.</summary>
    public IReadOnlyList<RegisterDifference> Differences => field ??= DifferencesOf(Listing, Expected);

    /// <summary>The registers of a listing that are compared and differ.</summary>
    public static IReadOnlyList<RegisterDifference> DifferencesOf(Listing listing, Expected expected) =>
    [
        .. expected.Registers.Where(one => listing[one.Address] is { } listed && !one.Fits(listed)).Select(one => new RegisterDifference(listing[one.Address]!, one)),
    ];

    /// <summary>How many registers of the listing are compared.</summary>
    public int Compared => Expected.Registers.Count(one => Listing[one.Address] is not null);

    public RegisterDifference? Difference(byte address) => Differences.FirstOrDefault(one => one.Address == address);
}
