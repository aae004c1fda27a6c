using System.Collections.Immutable;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>What a survey measured: the share of time that others keep each channel busy, over the whole band that a packet fills there.</summary>
/// <param name="Busy">By channel number, 0 to 125; null where nothing is known of it.</param>
public sealed record ChannelCosts(ImmutableArray<Share?> Busy)
{
    /// <summary>How many channels there are.</summary>
    public const int Channels = 126;
}

/// <summary>A value that the manifest fixes, and what the plan would cost if it did not.</summary>
/// <param name="Target">As in <see cref="Choice"/>.</param>
/// <param name="Place">Where it is written.</param>
/// <param name="Value">As written.</param>
/// <param name="Cost">Of the plan as it is, in points of docs/fill-cost.md.</param>
/// <param name="IfFree">Of the best plan that may choose this one value too; never more than <paramref name="Cost"/>.</param>
/// <param name="Better">What it would choose instead.</param>
public sealed record FixedCost(object? Target, string Key, Place Place, string Value, long Cost, long IfFree, string Better);

/// <summary>Something that the manifest or the law asks for.</summary>
/// <param name="Place">Where it is asked for.</param>
/// <param name="Words">What is asked, with figures and units.</param>
public sealed record Demand(Place Place, string Words);

/// <summary>What is chosen for a network, or why nothing can be.</summary>
public sealed record FillPlan
{
    /// <summary>Values to write: the network's, powers and delays by the nodes' names, then links and payloads. None where demands conflict.</summary>
    public ImmutableArray<Choice> Choices { get; init; } = ImmutableArray<Choice>.Empty;

    /// <summary>
    /// Values that follow from names and need no writing: addresses, pipes, delays of groups. Where a choice's target is a link with one sender and one receiver it may be
    /// written all the same.
    /// </summary>
    public ImmutableArray<Choice> Derived { get; init; } = ImmutableArray<Choice>.Empty;

    /// <summary>What stays open or at its default because facts are missing, one line each.</summary>
    public ImmutableArray<string> Kept { get; init; } = ImmutableArray<string>.Empty;

    /// <summary>In points of docs/fill-cost.md: millionths of what losing every packet at the first try would be.</summary>
    public long Cost { get; init; }

    /// <summary>No plan that keeps the written values costs less; equal to <see cref="Cost"/> where the search was exact.</summary>
    public long Bound { get; init; }

    /// <summary>Written values that cost something, the dearest first.</summary>
    public ImmutableArray<FixedCost> Fixed { get; init; } = ImmutableArray<FixedCost>.Empty;

    /// <summary>Demands that cannot all be met, each of them needed for that: without any one the rest can be met. Empty where a plan exists.</summary>
    public ImmutableArray<Demand> Conflict { get; init; } = ImmutableArray<Demand>.Empty;
}
