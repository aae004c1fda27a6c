using System.Globalization;
using RadioLint.Survey;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Survey;

/// <summary>What is kept of a log.</summary>
public sealed class BandObservationTests(ITestOutputHelper output)
{
    [Fact]
    public void Memory_does_not_grow_with_the_log_and_no_sample_is_lost()
    {
        const int Sweeps = 300_000;
        var dice = new Random(1);
        var sweeps = Enumerable.Range(0, 64).Select(_ => Sweep(dice)).ToList();
        var observation = new BandObservation("hub");
        Fill(observation, sweeps, 2_000);
        // What this thread asks for, kept or not: other tests run beside it.
        var before = GC.GetAllocatedBytesForCurrentThread();
        Fill(observation, sweeps, Sweeps - 2_000);
        var more = GC.GetAllocatedBytesForCurrentThread() - before;
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{more / 1024} KiB asked for in {Sweeps} sweeps"));
        Assert.Equal(Sweeps, observation.Sweeps);
        Assert.Equal(Sweeps, observation.Samples(5));
        Assert.Equal(Enumerable.Range(0, 2_000).Concat(Enumerable.Range(0, Sweeps - 2_000)).Sum(number => (long)sweeps[number % 64].Heard[5]), observation.Heard(5));
        // The counts themselves take 300 MB.
        Assert.InRange(more, 0, 16_000_000);
    }

    [Fact]
    public void A_clock_that_starts_anew_counts_no_gap()
    {
        var observation = new BandObservation("hub");
        foreach (var second in new[] { 1, 2, 3, 1, 5 })
            observation.Add(new Sweep { At = new(second * 1_000_000_000L) });
        Assert.Equal(new Duration(6_000_000_000), observation.Lasted);
        Assert.Null(new BandObservation("far").Lasted);
    }

    [Fact]
    public void Counts_that_cannot_be_are_bounded()
    {
        var observation = new BandObservation("hub");
        var sweep = new Sweep();
        (sweep.Samples[3], sweep.Heard[3]) = (2, 9);
        (sweep.Samples[4], sweep.Heard[4]) = (-2, 1);
        (sweep.Samples[5], sweep.Heard[5]) = (2, -1);
        observation.Add(sweep);
        Assert.Equal([(2, 2), (0, 0), (2, 0)], new[] { 3, 4, 5 }.Select(channel => (observation.Samples(channel), observation.Heard(channel))));
    }

    private static void Fill(BandObservation observation, List<Sweep> sweeps, int count)
    {
        for (var number = 0; number < count; number++)
            observation.Add(sweeps[number % 64]);
    }

    private static Sweep Sweep(Random dice)
    {
        var sweep = new Sweep();
        for (var channel = 0; channel < RadioLint.Survey.Sweep.Channels; channel++)
            (sweep.Samples[channel], sweep.Heard[channel]) = (1, dice.Next(3) == 0 ? 1 : 0);
        return sweep;
    }
}
