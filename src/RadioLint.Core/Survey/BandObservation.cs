using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>What was heard at one place, of however many sweeps, in memory that does not grow with them.</summary>
public sealed class BandObservation(string place)
{
    private readonly long[] samples = new long[Sweep.Channels];
    private readonly long[] heard = new long[Sweep.Channels];

    /// <summary>The node that listened, or the place as the log calls it.</summary>
    public string Place { get; } = place;

    public long Sweeps { get; private set; }

    /// <summary>When the first and the last sweep ended; null while none had a time.</summary>
    public Duration? First { get; private set; }

    public Duration? Last { get; private set; }

    /// <summary>Takes in one sweep.</summary>
    public void Add(Sweep sweep)
    {
        for (var channel = 0; channel < Sweep.Channels; channel++)
        {
            samples[channel] += sweep.Samples[channel];
            heard[channel] += sweep.Heard[channel];
        }
        Sweeps++;
        First ??= sweep.At;
        Last = sweep.At ?? Last;
    }

    /// <summary>How often a channel was listened to.</summary>
    public long Samples(int channel) => samples[channel];

    /// <summary>How often something was heard there.</summary>
    public long Heard(int channel) => heard[channel];
}
