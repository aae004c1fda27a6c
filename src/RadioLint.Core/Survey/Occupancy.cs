namespace RadioLint.Survey;

/// <summary>A sum over channels: of the share heard on each, and of the share heard on each together with the one below it, by weights.</summary>
internal sealed class Weights
{
    public double[] Alone { get; } = new double[Sweep.Channels];
    public double[] Together { get; } = new double[Sweep.Channels];
}

/// <summary>An estimate and what it is worth.</summary>
/// <param name="Variance">Of the estimate, from how batches of the log differ.</param>
/// <param name="Freedom">Batches less one.</param>
internal readonly record struct Estimate(double Value, double Variance, int Freedom);

/// <summary>Shares at one place, and how far they may be off although samples in a row depend on each other.</summary>
internal sealed class Occupancy
{
    /// <summary>Batches of the log: few enough that each outlasts what comes in bursts, enough to see how they differ.</summary>
    private const int Batches = 32;

    private readonly Stretch all = new();
    private readonly List<Stretch> batches = [];

    public Occupancy(BandObservation observed)
    {
        (Place, IsNarrow) = (observed.Place, observed.IsNarrow);
        var stretches = observed.Stretches;
        var count = Math.Min(Batches, stretches.Count);
        for (var batch = 0; batch < count; batch++)
        {
            var sum = new Stretch();
            for (var i = stretches.Count * batch / count; i < stretches.Count * (batch + 1) / count; i++)
                sum.Add(stretches[i]);
            batches.Add(sum);
            all.Add(sum);
        }
        for (var channel = 0; channel < Sweep.Channels; channel++)
        {
            Share[channel] = all.Samples[channel] == 0 ? 0 : (double)all.Heard[channel] / all.Samples[channel];
            Both[channel] = all.Pairs[channel] == 0 ? 0 : all.Both[channel] / all.Pairs[channel];
        }
    }

    public string Place { get; }

    /// <summary>True where each channel was heard by itself; else the detector heard all that a packet there would meet.</summary>
    public bool IsNarrow { get; }

    /// <summary>Share of samples in which a channel was heard.</summary>
    public double[] Share { get; } = new double[Sweep.Channels];

    /// <summary>Share of sweeps in which it and the channel below were heard.</summary>
    public double[] Both { get; } = new double[Sweep.Channels];

    public long Samples(int channel) => all.Samples[channel];

    public long Heard(int channel) => all.Heard[channel];

    public bool HasPairs(int channel) => all.Pairs[channel] > 0;

    /// <summary>A weighted sum.</summary>
    public double Value(Weights weights)
    {
        var value = 0.0;
        for (var channel = 0; channel < Sweep.Channels; channel++)
            value += (weights.Alone[channel] * Share[channel]) + (weights.Together[channel] * Both[channel]);
        return value;
    }

    /// <summary>
    /// A weighted sum and its variance by batch means: batches differ by what really happens, in bursts or not, so no sample needs to be
    /// independent of the next (a textbook method of simulation; from memory).
    /// </summary>
    public Estimate Of(Weights weights)
    {
        var squares = 0.0;
        foreach (var batch in batches)
        {
            var off = OffIn(batch, weights);
            squares += off * off;
        }
        return new(Value(weights), batches.Count < 2 ? 0 : squares * batches.Count / (batches.Count - 1), Math.Max(1, batches.Count - 1));
    }

    // What a batch adds to the error of the sum, were the estimate the truth: a ratio's first order, so batches may be of unequal length.
    private double OffIn(Stretch batch, Weights weights)
    {
        var sum = 0.0;
        for (var channel = 0; channel < Sweep.Channels; channel++)
        {
            if (weights.Alone[channel] != 0 && all.Samples[channel] > 0)
                sum += weights.Alone[channel] * (batch.Heard[channel] - (Share[channel] * batch.Samples[channel])) / all.Samples[channel];
            if (weights.Together[channel] != 0 && all.Pairs[channel] > 0)
                sum += weights.Together[channel] * (batch.Both[channel] - (Both[channel] * batch.Pairs[channel])) / all.Pairs[channel];
        }
        return sum;
    }
}
