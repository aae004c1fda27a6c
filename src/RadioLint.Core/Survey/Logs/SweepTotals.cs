using System.Collections.Immutable;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>Sums over the sweeps of one log.</summary>
internal sealed class SweepTotals
{
    // A century: what is longer says nothing.
    private const long MostListened = 3_155_760_000_000_000_000;

    private readonly long[] samples = new long[Sweep.Channels];
    private readonly long[] heard = new long[Sweep.Channels];
    private readonly SortedDictionary<string, long> listened = new(StringComparer.Ordinal);

    public long Sweeps { get; private set; }

    /// <summary>Sweeps of more places than are kept apart.</summary>
    public int PassedOver { get; private set; }

    /// <summary>How long the samples of the place with the most took at least; null where no dwell is known.</summary>
    public Duration? Listened => listened.Count > 0 && listened.Values.Max() is > 0 and var most ? new(most) : null;

    public ImmutableArray<string> Places => ImmutableArray.CreateRange(listened.Keys);

    public ImmutableArray<long> Samples => ImmutableArray.Create(samples);

    public ImmutableArray<long> Heard => ImmutableArray.Create(heard);

    /// <summary>Takes in a sweep; says how long its place was listened at by then, none where no dwell is known. Null when the place is one too many.</summary>
    public Duration? Add(Sweep sweep, string where, Duration? dwell)
    {
        if (!listened.TryGetValue(where, out var before) && listened.Count == SurveyLimits.MostPlaces)
        {
            PassedOver++;
            return null;
        }
        var count = 0L;
        for (var channel = 0; channel < Sweep.Channels; channel++)
        {
            samples[channel] += sweep.Samples[channel];
            heard[channel] += sweep.Heard[channel];
            count += sweep.Samples[channel];
        }
        Sweeps++;
        var now = (long)Math.Min((decimal)before + ((decimal)count * (dwell?.Nanoseconds ?? 0)), MostListened);
        listened[where] = now;
        return new(now);
    }
}
