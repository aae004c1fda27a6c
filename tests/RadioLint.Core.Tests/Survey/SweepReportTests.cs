using RadioLint.Survey;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Survey;

/// <summary>`rl1 sweep` reports, as they come and as they do not.</summary>
public sealed class SweepReportTests
{
    private static readonly string Whole = Surveys.Reports("shed", 7, channel => channel % 101);

    [Fact]
    public void A_sweep_of_several_lines_is_one_sweep_of_100_rounds()
    {
        var (log, sweeps) = Surveys.Read("hello\r\n" + Surveys.Report("rl1 boot shed E6634F9D 98D6AA3C") + "\r\n" + Whole);
        var sweep = Assert.Single(sweeps);
        Assert.Equal(("shed", 7L, Duration.FromMicroseconds(200)), (sweep.Where, sweep.Number, sweep.Dwell!.Value));
        Assert.Equal(Enumerable.Repeat(100, 126), sweep.Samples);
        Assert.Equal(Enumerable.Range(0, 126).Select(channel => channel % 101), sweep.Heard);
        // 126 channels, 100 times 200 us each: what listening took at least.
        Assert.Equal(new Duration(2_520_000_000), sweep.At);
        Assert.Equal((SurveyForm.Reports, 0, false, sweep.At), (log.Form, log.Broken, log.HasTimes, log.Lasted));
        Assert.Equal((3, 18, "200"), (log.Dwell!.Value.Place.From.Line, log.Dwell.Value.Place.From.Column, log.Dwell.Value.Place.Text));
    }

    [Fact]
    public void Nodes_that_talk_at_once_are_told_apart()
    {
        var lines = Surveys.Reports("shed", 1, _ => 3).Split("\r\n").Zip(Surveys.Reports("hive", 1, _ => 5).Split("\r\n"), (a, b) => $"{a}\r\n{b}");
        Assert.Equal(["shed 3", "hive 5"], Surveys.Read(string.Join("\r\n", lines)).Sweeps.Select(sweep => $"{sweep.Where} {sweep.Heard[9]}"));
    }

    [Fact]
    public void A_log_that_is_cut_anywhere_keeps_the_lines_before()
    {
        var text = Whole + Surveys.Reports("shed", 8, _ => 1);
        for (var at = 0; at < text.Length; at++)
        {
            var (log, sweeps) = Surveys.Read(text[..at]);
            Assert.InRange(log.Broken, 0, 1);
            foreach (var sweep in sweeps)
            {
                for (var channel = 0; channel < Sweep.Channels; channel++)
                    Assert.True(sweep.Samples[channel] == 0 || (sweep.Samples[channel], sweep.Heard[channel]) == (100, sweep.Number == 7 ? channel % 101 : 1), $"{at} {channel}");
            }
        }
    }

    [Fact]
    public void A_line_that_is_lost_leaves_its_channels_without_samples()
    {
        var lines = Whole.Split("\r\n");
        var (log, sweeps) = Surveys.Read(string.Join("\r\n", lines.Where((_, i) => i != 1)) + Surveys.Reports("shed", 8, _ => 1));
        Assert.Equal([7L, 8L], sweeps.Select(sweep => sweep.Number));
        Assert.Equal((0, 100, 0), (sweeps[0].Samples[45], sweeps[0].Samples[0], log.Broken));
    }

    [Fact]
    public void A_node_that_begins_again_begins_a_new_sweep()
    {
        var lines = Whole.Split("\r\n");
        var (_, sweeps) = Surveys.Read($"{lines[0]}\n{Surveys.Report("rl1 boot shed E6634F9D 98D6AA3C")}\n{Whole}");
        Assert.Equal([100, 0], [sweeps[0].Samples[0], sweeps[0].Samples[125]]);
        Assert.Equal(2, sweeps.Count);
        // Without its word the channels that come again tell.
        Assert.Equal(2, Surveys.Read($"{lines[0]}\n{Whole}").Sweeps.Count);
    }

    [Theory]
    [InlineData("rl1 sweep shed 1 200 0", "`sweep` is told in another form")]
    [InlineData("rl1 sweep shed x 200 0 1", "`x` is not a number of a sweep")]
    [InlineData("rl1 sweep shed 1 -5 0 1", "`-5` is not a dwell in us")]
    [InlineData("rl1 sweep shed 1 200 126 1", "`126` is not a channel")]
    [InlineData("rl1 sweep shed 1 200 124 1 2 3", "it tells of channels past 125")]
    [InlineData("rl1 sweep shed 1 200 0 101", "`101` is not a count out of 100")]
    public void A_report_that_makes_no_sense_is_counted(string report, string fault)
    {
        var (log, sweeps) = Surveys.Read("noise\n" + Surveys.Report(report) + "\n" + Whole);
        Assert.Equal((1, 2, fault), (log.Broken, log.FirstBroken!.Value.Place.From.Line, log.FirstBroken.Value.Fault));
        Assert.Single(sweeps);
    }

    [Fact]
    public void Every_flipped_bit_is_noticed()
    {
        var line = Whole.Split("\r\n")[0];
        for (var bit = 0; bit < line.Length * 8; bit++)
        {
            var text = line.ToCharArray();
            text[bit / 8] ^= (char)(1 << (bit % 8));
            if (text[bit / 8] is '\n' or '\r')
                continue;
            var (log, sweeps) = Surveys.Read(new string(text) + "\n");
            Assert.Empty(sweeps);
            Assert.True(log.Broken == 1 || bit < 32, new string(text));
        }
    }

    [Theory]
    [InlineData("[2026-05-02 18:30:00.5] ", "[2026-05-02 18:30:03] ", "2026-05-02", 2_500)]
    [InlineData("18:30:00 -> ", "18:30:03 -> ", null, 3_000)]
    [InlineData("2026-05-02T18:30:00Z ", "2026-05-02T18:31:00Z ", "2026-05-02", 60_000)]
    public void Times_before_the_reports_are_read(string first, string second, string? day, int milliseconds)
    {
        var (log, sweeps) = Surveys.Read(Stamped(first, Whole) + Stamped(second, Surveys.Reports("shed", 8, _ => 1)));
        Assert.Equal((day, true, 0), (log.Begun?.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture), log.HasTimes, log.Broken));
        Assert.Equal([0, milliseconds], sweeps.Select(sweep => (int)(sweep.At!.Value.Nanoseconds / 1_000_000)));

        static string Stamped(string stamp, string reports) => string.Concat(reports.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Select(line => $"{stamp}{line}\r\n"));
    }

    [Fact]
    public void Arrival_is_stamped_where_it_was_seen()
    {
        var sweeps = new List<Sweep>();
        var reader = new SurveyLogReader("port", new() { Started = new(2026, 5, 2) }, sweeps.Add);
        var number = 0;
        foreach (var line in (Whole + Surveys.Reports("shed", 8, _ => 1)).Split("\r\n", StringSplitOptions.RemoveEmptyEntries))
            reader.Add(new(line, ++number), new Duration(number * 1_000_000_000L));
        var log = reader.End();
        Assert.Equal((true, new Duration(number * 1_000_000_000L), new DateTime(2026, 5, 2)), (log.HasTimes, log.Lasted!.Value, log.Begun!.Value));
        Assert.Equal([Whole.Count(c => c == '\n'), number], sweeps.Select(sweep => (int)(sweep.At!.Value.Nanoseconds / 1_000_000_000)));
    }
}
