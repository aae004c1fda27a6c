using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>What is known of one channel, over the whole band that a packet fills there.</summary>
/// <param name="Rank">From 1, the quietest first; null where the channel is out.</param>
/// <param name="WhyOut">Why it is out, in words; null where it is ranked.</param>
/// <param name="Busy">Share of samples in which somebody else was heard where a packet would be; at the worst of the places.</param>
/// <param name="Interval">The 95 % confidence interval of that share.</param>
/// <param name="Samples">How many samples of this one channel there are.</param>
/// <param name="Reasons">What speaks for or against it, the heaviest first, in words.</param>
public sealed record RankedChannel(
    int Channel, Frequency Carrier, int? Rank, string? WhyOut, Share Busy, Between<Share> Interval, long Samples, ImmutableArray<string> Reasons);

/// <summary>Kinds of systems that are known by the shape of what they fill.</summary>
public enum SystemKind
{
    Wifi,
    BluetoothLeAdvertising,
    Ieee802154,
}

/// <summary>Another system in the band.</summary>
/// <param name="Channel">As its standard counts; the lower of a pair.</param>
/// <param name="IsDeclared">True when the manifest names it.</param>
/// <param name="IsHeard">True when the logs show it.</param>
public sealed record SystemInBand(SystemKind Kind, int Channel, int? Partner, Between<Frequency> Occupied, bool IsDeclared, bool IsHeard);

/// <summary>What the detector cannot see and a link would still suffer from.</summary>
/// <param name="Planned">What arrives at the receiver by the link budget; null when facts are missing.</param>
/// <param name="LeastHarmful">From here upward a signal on the channel ruins the link's packets; null with <paramref name="Planned"/>.</param>
public sealed record BlindZone(Hop Hop, PowerLevel Threshold, PowerLevel? Planned, PowerLevel? LeastHarmful);

/// <summary>The verdict on all channels, from all logs.</summary>
public sealed record ChannelRanking
{
    /// <summary>By number, all 126.</summary>
    public required ImmutableArray<RankedChannel> Channels { get; init; }

    public required ImmutableArray<SystemInBand> Systems { get; init; }

    public required ImmutableArray<BlindZone> Blind { get; init; }

    /// <summary>The places that were listened at, in ordinal order.</summary>
    public required ImmutableArray<string> Places { get; init; }

    /// <summary>The network's channel; null while it is open.</summary>
    public required int? Planned { get; init; }

    /// <summary>How long was listened, at the place with the least; null where no log has times.</summary>
    public required Duration? Lasted { get; init; }

    /// <summary>How much longer until first and second can be told apart; none when they can, null when they never will at this rate.</summary>
    public required Duration? MoreTime { get; init; }

    /// <summary>Those that may be used, the best first.</summary>
    public IEnumerable<RankedChannel> Ranked => Channels.Where(each => each.Rank is not null).OrderBy(each => each.Rank);
}
