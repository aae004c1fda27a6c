using System.Collections.Immutable;
using RadioLint.Units;

namespace RadioLint.Radio;

/// <summary>
/// Retry delays that keep two senders apart after one collision: any two differ by at least two packet times, and each is at least
/// one packet time, so that the first repetition clears the other's first packet.
/// </summary>
public static class RetryClasses
{
    /// <summary>All delays of 250 us steps up to 4000 us that serve, least first. Empty when the least legal delay itself is too long.</summary>
    /// <param name="leastLegal">What the acknowledgement needs.</param>
    /// <param name="longestPacket">The longest packet of the senders, on air.</param>
    public static ImmutableArray<Duration> For(Duration leastLegal, Duration longestPacket)
    {
        var clearsTheOther = OnAir.RoundUpToStep(longestPacket);
        var first = leastLegal > clearsTheOther ? leastLegal : clearsTheOther;
        var apart = OnAir.RoundUpToStep(longestPacket * 2);
        var classes = ImmutableArray.CreateBuilder<Duration>();
        for (var delay = first; delay <= OnAir.LongestRetryDelay; delay += apart)
            classes.Add(delay);
        return classes.ToImmutable();
    }

    /// <summary>True when two delays keep the first repetitions of two packets that met clear of each other, however they met.</summary>
    /// <param name="longer">The longer of the two packets, on air.</param>
    public static bool AreApart(Duration one, Duration other, Duration longer) => (one > other ? one - other : other - one) >= longer * 2;
}
