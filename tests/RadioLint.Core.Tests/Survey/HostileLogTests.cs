using RadioLint.Survey;
using Xunit;

namespace RadioLint.Tests.Survey;

/// <summary>Logs that are made to hurt, or damaged: answered, bounded, and never more heard than listened.</summary>
public sealed class HostileLogTests
{
    [Fact]
    public void Damaged_logs_are_answered()
    {
        const string put = "0123456789eE.,;:-+#\"\t\n/TZ chdbmlrx\u00e9\u2028";
        string[] logs =
        [
            "time,place,channel,level\n1.5,shed,10,-85.5\n2.5,shed,11,-50\n3.5,hive,10,-64.25\n", "# dwell: 200 us\nsamples,ch0,ch1,ch2\n100,5,0,7\n100,6,1,100\n",
            "2026-05-02 18:30:00,2402,2403\n", "time;frequency (MHz);hits;rounds\n2026-05-02 18:30:00;2402.5;5;100\n23:59;2403;1;9\n", "2402,2403,2404\n-50,-60,-70\n-1e2,,nan\n",
            Surveys.Reports("shed", 1, channel => channel % 100), "18:30:00 " + Surveys.Reports("hive", 2, _ => 0),
        ];
        var random = new Random(74);
        for (var i = 0; i < 20_000; i++)
        {
            var text = logs[i % logs.Length].ToList();
            for (var edits = random.Next(1, 12); edits > 0; edits--)
            {
                var at = random.Next(text.Count);
                switch (random.Next(3))
                {
                    case 0:
                        text.RemoveAt(at);
                        break;
                    case 1:
                        text[at] = put[random.Next(put.Length)];
                        break;
                    default:
                        text.Insert(at, put[random.Next(put.Length)]);
                        break;
                }
            }
            var log = string.Concat(text);
            var (read, sweeps) = Surveys.Read(log);
            Assert.All(sweeps, sweep => Assert.All(Enumerable.Range(0, Sweep.Channels), channel => Assert.InRange(sweep.Heard[channel], 0, sweep.Samples[channel])));
            Assert.True(read.Lasted is null or { Nanoseconds: >= 0 }, log);
            if (read.FirstBroken is var (place, fault))
            {
                Assert.InRange(place.From.Line, 1, read.Lines);
                Assert.True(place.End <= place.Source.Text.Length && place.Length >= 0 && fault.Length > 0, log);
            }
        }
    }

    [Theory]
    [InlineData("time,channel,level\n99999999999999999999,1,-50\n9e99,1,-50\n1e-99,1,-50\n", 2)]
    [InlineData("frequency,level\n1e30,-50\n-2402,-50\n2402,-1e19\n", 3)]
    [InlineData("channel,hits,samples\n1,999999,1000000\n1,99999999999,100\n1,1,1000001\n", 2)]
    [InlineData("channel,hits,samples,dwell\n1,1,1000000,10000000\n1,1,1000000,10000001\n", 1)]
    public void Figures_past_all_reason_are_broken(string text, int broken) => Assert.Equal(broken, Surveys.Read(text).Log.Broken);

    [Fact]
    public void Time_that_is_added_up_ends_at_a_century()
    {
        var (log, _) = Surveys.Read("channel,hits,samples,dwell\n" + string.Concat(Enumerable.Repeat("1,1,1000000,10000000\n2,1,1000000,10000000\n", 400)));
        Assert.Equal(3_155_760_000_000_000_000, log.Lasted!.Value.Nanoseconds);
    }

    // Midnight every other row.
    [Fact]
    public void A_clock_that_runs_wild_is_stopped()
    {
        var (log, _) = Surveys.Read("time,channel,level\n" + string.Concat(Enumerable.Repeat("23:59:59,1,-50\n00:00:01,1,-50\n", 4_000)));
        Assert.True(log.Broken > 600);
        Assert.True(log.Lasted!.Value.Nanoseconds < 3_662L * 86_400 * 1_000_000_000);
    }

    [Fact]
    public void Bounds_hold()
    {
        var crowd = Surveys.Read("place,channel,level\n" + string.Concat(Enumerable.Range(0, 150).Select(i => $"p{i},1,-50\n"))).Log;
        Assert.Equal((SurveyLimits.MostPlaces, 50), (crowd.Places.Length, crowd.PassedOver));
        var nodes = Surveys.Read(string.Concat(Enumerable.Range(0, 150).Select(i => Surveys.Report($"rl1 sweep p{i} 1 200 0 1") + "\n"))).Log;
        Assert.Equal((SurveyLimits.MostPlaces, 50), (nodes.Places.Length, nodes.PassedOver));
        Assert.Equal((1, 3), (Surveys.Read(new string('x', 2_000_000) + "\n\nend").Log.TooLong, Surveys.Read(new string('x', 2_000_000) + "\n\nend").Log.Lines));
        Assert.Equal(1, Surveys.Read(string.Join(',', Enumerable.Repeat("x", SurveyLimits.MostColumns + 1)) + "\n1\n").Log.Broken);
        Assert.Equal(1, Surveys.Read("place,channel,level\n" + new string('p', SurveyLimits.LongestPlace + 1) + ",1,-50\n").Log.Broken);
    }

    // Broken rows are looked at for a header, but not for ever: 40 MB of them are read in seconds.
    [Fact]
    public void Broken_rows_without_end_are_read_in_time()
    {
        var row = string.Join(',', Enumerable.Repeat("x", 1_000));
        var watch = System.Diagnostics.Stopwatch.StartNew();
        var reader = new SurveyLogReader("log", new(), _ => Assert.Fail("a sweep"));
        for (var number = 0; number <= 20_000; number++)
            reader.Add(new(number == 0 ? "2402,2403,2404" : row, number + 1));
        Assert.Equal(20_000, reader.End().Broken);
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(60), $"{watch.Elapsed}");
    }

    [Fact]
    public void Noise_is_answered()
    {
        var random = new Random(1);
        var text = string.Create(500_000, random, static (all, random) =>
        {
            for (var i = 0; i < all.Length; i++)
                all[i] = (char)random.Next(random.Next(4) == 0 ? 0x10000 : 128);
        });
        Assert.Empty(Surveys.Read(text).Sweeps);
    }
}
