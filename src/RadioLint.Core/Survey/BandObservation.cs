using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>
/// What was heard at one place, of however many sweeps, in memory that does not grow with them: neighbouring stretches of sweeps are joined
/// whenever there are too many, so that what comes in bursts can still be told from what comes evenly.
/// </summary>
public sealed class BandObservation(string place)
{
    /// <summary>Stretches that are kept apart, at most; half as many at least once there were so many sweeps.</summary>
    internal const int MostStretches = 512;

    private readonly List<Stretch> stretches = [];
    private long perStretch = 1;
    private Duration? last;

    /// <summary>The node that listened, or the place as the log calls it.</summary>
    public string Place { get; } = place;

    public long Sweeps { get; private set; }

    /// <summary>How long was listened, gaps between two logs left out; null while no sweep had a time.</summary>
    public Duration? Lasted { get; private set; }

    /// <summary>True once a sweep came from an instrument with a filter of its own.</summary>
    internal bool IsNarrow { get; private set; }

    /// <summary>In the order of the sweeps, all of as many sweeps but the last.</summary>
    internal IReadOnlyList<Stretch> Stretches => stretches;

    /// <summary>Takes in one sweep. A count above that of the samples is taken for it, one below none for none.</summary>
    public void Add(Sweep sweep)
    {
        if (stretches.Count == 0 || stretches[stretches.Count - 1].Sweeps >= perStretch)
            stretches.Add(new());
        stretches[stretches.Count - 1].Add(sweep.Samples, sweep.Heard);
        Sweeps++;
        IsNarrow |= sweep.Width is not null;
        if (stretches.Count == MostStretches && stretches[MostStretches - 1].Sweeps >= perStretch)
            Join();
        if (sweep.At is { } at)
        {
            // A clock that goes back is that of another log.
            Lasted = (Lasted ?? default) + (last is { } before && at > before ? at - before : default);
            last = at;
        }
    }

    /// <summary>How often a channel was listened to.</summary>
    public long Samples(int channel) => stretches.Sum(each => each.Samples[channel]);

    /// <summary>How often something was heard there.</summary>
    public long Heard(int channel) => stretches.Sum(each => each.Heard[channel]);

    private void Join()
    {
        for (var i = 0; i < MostStretches / 2; i++)
        {
            stretches[2 * i].Add(stretches[(2 * i) + 1]);
            stretches[i] = stretches[2 * i];
        }
        stretches.RemoveRange(MostStretches / 2, MostStretches / 2);
        perStretch *= 2;
    }
}

/// <summary>Some sweeps in a row, added up by channel.</summary>
internal sealed class Stretch
{
    public long Sweeps { get; private set; }
    public long[] Samples { get; } = new long[Sweep.Channels];
    public long[] Heard { get; } = new long[Sweep.Channels];

    /// <summary>Sweeps that listened to a channel and to the one below it.</summary>
    public long[] Pairs { get; } = new long[Sweep.Channels];

    /// <summary>Sum over those sweeps of the share heard on the channel times the share heard on the one below.</summary>
    public double[] Both { get; } = new double[Sweep.Channels];

    public void Add(int[] samples, int[] heard)
    {
        var below = -1.0;
        for (var channel = 0; channel < Sweep.Channels; channel++)
        {
            var listened = samples[channel];
            if (listened <= 0)
            {
                below = -1;
                continue;
            }
            var busy = Math.Max(0, Math.Min(listened, heard[channel]));
            Samples[channel] += listened;
            Heard[channel] += busy;
            var share = busy == 0 ? 0 : (double)busy / listened;
            if (below >= 0)
            {
                Pairs[channel]++;
                Both[channel] += share * below;
            }
            below = share;
        }
        Sweeps++;
    }

    public void Add(Stretch other)
    {
        Sweeps += other.Sweeps;
        for (var channel = 0; channel < Sweep.Channels; channel++)
        {
            Samples[channel] += other.Samples[channel];
            Heard[channel] += other.Heard[channel];
            Pairs[channel] += other.Pairs[channel];
            Both[channel] += other.Both[channel];
        }
    }
}
