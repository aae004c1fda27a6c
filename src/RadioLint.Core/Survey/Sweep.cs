using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>
/// One pass over the band as a log tells it: how often each channel was listened to, and how often something was heard. Channels that it
/// does not tell of have no samples.
/// </summary>
public sealed class Sweep
{
    /// <summary>2400 MHz to 2525 MHz in steps of 1 MHz, all that the chips can be tuned to.</summary>
    public const int Channels = 126;

    /// <summary>The node that reports it, or the place that the log names; null when the log does not say.</summary>
    public string? Where { get; init; }

    public long Number { get; init; }

    /// <summary>When it ended, counted from the log's first sweep; null where the log has no times.</summary>
    public Duration? At { get; init; }

    /// <summary>Time on each channel; null where the log does not say.</summary>
    public Duration? Dwell { get; init; }

    /// <summary>
    /// Width of the spectrum that one sample looks at; null for the detector of the radio itself, which sits behind the filter of the receiver and
    /// hears what a packet at the network's rate would meet.
    /// </summary>
    public Frequency? Width { get; init; }

    /// <summary>How often each channel was listened to.</summary>
    public int[] Samples { get; } = new int[Channels];

    /// <summary>How often something was heard there; at most the samples.</summary>
    public int[] Heard { get; } = new int[Channels];

    /// <summary>The same, so much later and at a place by another name.</summary>
    public Sweep Moved(string? where, Duration? at)
    {
        var moved = new Sweep { Where = where, Number = Number, At = at, Dwell = Dwell };
        Samples.CopyTo(moved.Samples, 0);
        Heard.CopyTo(moved.Heard, 0);
        return moved;
    }
}
