using RadioLint.Text;

namespace RadioLint.Readback;

/// <summary>What a node's program said when it started.</summary>
/// <param name="Fingerprint">Of the network it was built for.</param>
/// <param name="Digest">Of the node.</param>
/// <param name="Place">Of the digest.</param>
public sealed record BootReport(string Fingerprint, string Digest, Place Place);

/// <summary>All that a log tells of one node.</summary>
/// <param name="name">As the node calls itself; empty for a listing that names nobody.</param>
/// <param name="place">Where it is first heard of.</param>
public sealed class ObservedNode(string name, Place place)
{
    private readonly List<Listing> first = [];
    private readonly Queue<Listing> later = new();
    private Listing? open;

    public string Name => name;

    public Place Place => place;

    /// <summary>The last start of its program.</summary>
    public BootReport? Boot { get; private set; }

    public int Boots { get; private set; }

    /// <summary>How many listings came, those that are not kept among them.</summary>
    public int ListingCount { get; private set; }

    /// <summary>The first and the last few listings, in their order.</summary>
    public IReadOnlyList<Listing> Listings => [.. first, .. later];

    /// <summary>The last whole listing; without one the last.</summary>
    public Listing? Last => first.Concat(later).Reverse().OrderBy(one => one.IsComplete ? 0 : 1).FirstOrDefault();

    /// <summary>The same under the name of a node.</summary>
    public ObservedNode Called(string other)
    {
        var node = new ObservedNode(other, place) { Boot = Boot, Boots = Boots, ListingCount = ListingCount };
        node.first.AddRange(Listings);
        return node;
    }

    public void Add(BootReport boot)
    {
        Close();
        Boot = boot;
        Boots++;
    }

    /// <summary>A register of a report; one that is there already begins another listing.</summary>
    public void Add(ListedRegister register)
    {
        if (open?.TryAdd(register) is true)
            return;
        Close();
        open = new() { IsReport = true, Run = Boots };
        open.TryAdd(register);
    }

    /// <summary>The end of a listing, and how many registers it has.</summary>
    public void End(int count)
    {
        if (open is not null)
            open.IsComplete = open.Count == count;
        Close();
    }

    /// <summary>A listing that has come as a whole.</summary>
    public void Add(Listing listing)
    {
        ListingCount++;
        if (first.Count < LogLimits.KeptListings)
        {
            first.Add(listing);
            return;
        }
        later.Enqueue(listing);
        if (later.Count > LogLimits.KeptListings)
            later.Dequeue();
    }

    /// <summary>A listing that was cut is used up to there.</summary>
    public void Close()
    {
        if (open is not null)
            Add(open);
        open = null;
    }
}
