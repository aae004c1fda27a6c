using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>One row of a table that gives a row to each sample.</summary>
/// <param name="Frequency">In hertz; of a channel's middle where the table tells channels.</param>
internal readonly record struct Sample(string? Where, long? Sweep, long Frequency, int Channel, int Heard, int Of, Duration? At, Duration? Dwell);

/// <summary>
/// Puts samples together to sweeps, place by place: one is over when a channel comes again after another, when the table's number of the sweep or its
/// dwell changes, or when there is no end to one channel.
/// </summary>
internal sealed class TableSweeps(Action<Sweep> take)
{
    private readonly Dictionary<string, Running> places = new(StringComparer.Ordinal);

    public int Places => places.Count;

    public bool Knows(string? where) => places.ContainsKey(where ?? "");

    public void Take(in Sample sample)
    {
        if (!places.TryGetValue(sample.Where ?? "", out var running))
            places.Add(sample.Where ?? "", running = new());
        if (running.Sweep is { } sweep && IsOver(running, sweep, sample))
            End(running);
        running.Add(sample);
    }

    public void End()
    {
        foreach (var place in places.OrderBy(one => one.Key, StringComparer.Ordinal))
            End(place.Value);
        places.Clear();
    }

    private void End(Running running)
    {
        if (running.Sweep is { } sweep)
            take(sweep.Moved(sweep.Where, running.At));
        running.Sweep = null;
    }

    private static bool IsOver(Running running, Sweep sweep, in Sample sample)
    {
        if (sample.Dwell != sweep.Dwell)
            return true;
        var had = sweep.Samples[sample.Channel];
        if (sample.Sweep is { } number ? number != sweep.Number : had > 0 && running.Channel != sample.Channel)
            return true;
        return had > 0 && had + sample.Of > SurveyLimits.MostSamples;
    }

    private sealed class Running
    {
        private long count;
        private long frequency;
        private bool isHeard;

        public Sweep? Sweep { get; set; }

        public int Channel { get; private set; } = -1;

        public Duration? At { get; private set; }

        public void Add(in Sample sample)
        {
            var isNew = Sweep is null;
            Sweep ??= new() { Where = sample.Where, Number = sample.Sweep ?? ++count, Dwell = sample.Dwell };
            At = sample.At;
            // Steps finer than a channel: together they are one sample, as the radio would hear their sum.
            var isPart = !isNew && sample.Of == 1 && Channel == sample.Channel && frequency != sample.Frequency;
            Sweep.Samples[sample.Channel] += isPart ? 0 : sample.Of;
            Sweep.Heard[sample.Channel] += isPart && isHeard ? 0 : sample.Heard;
            isHeard = sample.Heard > 0 || (isPart && isHeard);
            (Channel, frequency) = (sample.Channel, sample.Frequency);
        }
    }
}
