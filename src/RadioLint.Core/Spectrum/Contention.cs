using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>
/// Senders that start whenever they like, on one channel (pure random access: Abramson, AFIPS 1970). Loads and shares are whole millionths; a load
/// of one million is a channel that is never free.
/// </summary>
public static class Contention
{
    /// <summary>The share of packets that meet another one: 1 - e^(-2G).</summary>
    public static Share FirstTryLoss(Share load) => Rounded(1 - Math.Exp(-2 * load.Millionths / 1e6));

    /// <summary>How often a packet is sent on average, at most 1 + so many repetitions, when each try fails with a chance of its own: 1 + p + p^2 + ...</summary>
    public static double MeanAttempts(Share loss, int repetitions)
    {
        var (sum, chance) = (1.0, 1.0);
        for (var i = 0; i < repetitions; i++)
            sum += chance *= loss.Millionths / 1e6;
        return sum;
    }

    /// <summary>
    /// How long two senders of equal period stay in collision when their clocks differ: they slide past each other by two busy times (derived).
    /// </summary>
    public static Duration StuckFor(Duration busy, Share clocksApart) =>
        new((long)Math.Min(9e18, busy.Nanoseconds * 2.0 / clocksApart.Millionths * 1_000_000));

    /// <summary>
    /// The load that settles, repetitions included: they add load, which adds repetitions. The least that stands still, reached from an idle channel.
    /// </summary>
    /// <param name="loads">First tries, by how often each may be repeated: index 0 to 15.</param>
    public static Share Settled(IReadOnlyList<double> loads)
    {
        var load = loads.Sum();
        for (var round = 0; round < 200; round++)
        {
            var loss = FirstTryLoss(Rounded(load));
            var next = 0.0;
            for (var repetitions = 0; repetitions < loads.Count; repetitions++)
                next += loads[repetitions] * MeanAttempts(loss, repetitions);
            if (Rounded(next) == Rounded(load))
                break;
            load = next;
        }
        return Rounded(load);
    }

    private static Share Rounded(double ratio) => new((long)Math.Round(Math.Min(ratio, 1e9) * 1e6, MidpointRounding.AwayFromZero));
}
