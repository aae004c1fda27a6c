using System.Globalization;
using RadioLint.Survey;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Survey;

/// <summary>Tables with a header, in every form that docs/survey.md names. All levels, counts and times here are made up for the tests.</summary>
public sealed class TableTests
{
    private const string Two = "log 1: 2 1/1, 12 0/1|log 2: 2 0/1, 12 1/1";

    [Theory]
    [InlineData("frequency (MHz),level (dBm)\n2402,-60\n2412,-90\n2402,-80\n2412,-64\n", Two)]
    [InlineData("Frequency_kHz;Level\n2402000;-60\n2412000;-90\n2402000;-80\n2412000;-64\n", Two)]
    [InlineData("freq\trssi\n2402000000\t-60.5\n2412000000\t-90\n2402000000\t-80\n2412000000\t-63.99\n", Two)]
    [InlineData("FREQUENCY,POWER_DBM\n2.402,-6e1\n2.412,-90\n2402000000,-80\n2.412e9,-64.00\n", Two)]
    [InlineData("\"channel\" , \"level\"\n2,\"-60\"\n 12 , -90\n2,-80\n12,-64\n", Two)]
    [InlineData("note,channel,level,note\nx,2,-60,\"a,b\"\n,12,-90,\n,2,-80,\n,12,-64,\n", Two)]
    [InlineData("channel,frequency [MHz],level\n1,2402,-60\n1,2412,-90\n1,2402,-80\n1,2412,-64\n", Two)]
    [InlineData("2402,2412\n-60,-90\n-80,-64\n", Two)]
    [InlineData("ch2;ch12\n-60;-90\n-80;-64\n", Two)]
    [InlineData("channel 2;channel 12;remark\n-60;-90;first\n-80;-64;\n", Two)]
    [InlineData("2402 MHz (dBm),2412 MHz (dBm)\n-60,-90\n-80,-64,\n", Two)]
    [InlineData("2402000,2412000\n-60,-90\n-80,-64\n", Two)]
    [InlineData("2402.4 MHz,2411.5 MHz\n-60,-90\n-80,-64\n", Two)]
    [InlineData("sweep,channel,level\n1,2,-60\n1,12,-90\n2,2,-80\n2,12,-64\n", Two)]
    [InlineData("channel,hits,samples\n2,1,1\n12,0,1\n2,0,1\n12,1,1\n", Two)]
    [InlineData("samples,ch2,ch12\n1,1,0\n1,0,1\n", Two)]
    [InlineData("rounds;2402;2412\n1;1;0\n1;0;1\n", Two)]
    public void One_row_a_sample_and_one_row_a_sweep(string text, string sweeps)
    {
        Assert.Equal(sweeps.Split('|'), Surveys.Said(text));
        // The end of a line is no matter, nor a mark of remarks, nor how the text comes.
        Assert.Equal(sweeps.Split('|'), Surveys.Said("# a remark\r\n\r\n" + text.Replace("\n", "\r\n", StringComparison.Ordinal)));
        Assert.Equal(sweeps.Split('|'), Surveys.Read(text, piece: 1).Sweeps.Select(Surveys.Said));
        Assert.Equal((0, null), (Surveys.Read(text).Log.Broken, Surveys.Read(text).Log.FirstBroken));
    }

    [Theory]
    [InlineData("channel,level\n2,-64.00\n", "log 1: 2 1/1")]
    [InlineData("channel,level\n2,-64.01\n", "log 1: 2 0/1")]
    [InlineData("2402,2403\n-64,-64.01\n", "log 1: 2 1/1, 3 0/1")]
    public void A_level_at_the_threshold_is_heard(string text, string sweep) => Assert.Equal([sweep], Surveys.Said(text));

    // Levels come from an instrument, counts from a radio's own detector.
    [Theory]
    [InlineData("channel,level\n2,-60\n", 1)]
    [InlineData("2402,2403\n-60,-90\n", 1)]
    [InlineData("channel,hits,samples\n2,1,1\n", null)]
    [InlineData("samples,ch2,ch12\n1,1,0\n", null)]
    public void A_sweep_of_levels_says_how_wide_it_hears(string text, int? megahertz) =>
        Assert.Equal([megahertz is { } width ? Frequency.FromMegahertz(width) : (Frequency?)null], Surveys.Read(text).Sweeps.Select(sweep => sweep.Width));

    [Fact]
    public void Another_threshold_is_taken() =>
        Assert.Equal(["log 1: 2 1/1"], Surveys.Said("channel,level\n2,-85.5\n", new() { Threshold = new(-8_550) }));

    // The middle of a channel is its carrier: 2399.5 MHz is the first that counts, 2525.5 MHz the first that does not.
    [Theory]
    [InlineData("2399499999", null)]
    [InlineData("2399500000", 0)]
    [InlineData("2400499999", 0)]
    [InlineData("2400500000", 1)]
    [InlineData("2525499999", 125)]
    [InlineData("2525500000", null)]
    public void Frequencies_belong_to_the_nearest_channel(string hertz, int? channel)
    {
        var (log, sweeps) = Surveys.Read($"frequency (Hz),level\n{hertz},-50\n");
        Assert.Equal(channel is null ? [] : [$"log 1: {channel} 1/1"], sweeps.Select(Surveys.Said));
        Assert.Equal((channel is null ? 1 : 0, 0), (log.Outside, log.Broken));
    }

    [Fact]
    public void Steps_finer_than_a_channel_are_one_sample_and_the_loudest_counts()
    {
        Assert.Equal(["log 1: 2 1/1, 3 0/1"], Surveys.Said("frequency,level\n2401.6,-90\n2401.9,-60\n2402.2,-90\n2402.6,-90\n"));
        Assert.Equal(["log 1: 2 1/1, 3 0/1"], Surveys.Said("2401.6,2401.9,2402.2,2402.6\n-90,-60,-90,-90\n"));
        // The same frequency again is another sample.
        Assert.Equal(["log 1: 2 1/3"], Surveys.Said("frequency,level\n2402,-90\n2402,-60\n2402,-90\n"));
    }

    [Fact]
    public void Bare_channels_are_a_run_of_eight_or_more()
    {
        Assert.Equal(["log 1: 5 1/1, 6 0/1, 7 0/1, 8 0/1, 9 0/1, 10 0/1, 11 0/1, 12 1/1"], Surveys.Said("5,6,7,8,9,10,11,12\n-50,-90,-90,-90,-90,-90,-90,-60\n"));
        Assert.Empty(Surveys.Said("5,6,7,8,9,10,11\n-50,-90,-90,-90,-90,-90,-90\n"));
    }

    [Fact]
    public void Empty_cells_of_a_wide_table_are_no_samples() => Assert.Equal(["log 1: 3 0/1, 4 1/1", "log 2: 2 0/1"], Surveys.Said("2402,2403,2404\n,-90,-50\n-70,nan,\n"));

    [Fact]
    public void A_channel_that_is_never_left_is_told_of_by_and_by()
    {
        var (log, sweeps) = Surveys.Read("channel,level\n" + string.Concat(Enumerable.Repeat("7,-50\n7,-80\n", 1_250)));
        Assert.Equal([1_000, 1_000, 500], sweeps.Select(sweep => sweep.Samples[7]));
        Assert.Equal((2_500L, 1_250L), (log.Samples[7], log.Heard[7]));
    }

    [Fact]
    public void Places_are_kept_apart_however_their_rows_mix()
    {
        const string text = "node,channel,level\nshed,1,-50\nhive,1,-90\nshed,2,-90\nhive,2,-50\nshed,1,-90\n";
        Assert.Equal(["shed 1: 1 1/1, 2 0/1", "hive 1: 1 0/1, 2 1/1", "shed 2: 1 0/1"], Surveys.Said(text));
        Assert.Equal(["hive", "shed"], Surveys.Read(text).Log.Places);
        // What is stated for the whole log counts for more.
        Assert.Equal(["barn"], Surveys.Read(text, new() { Place = "barn" }).Log.Places);
        Assert.Equal(["loft"], Surveys.Read("# place: loft\nchannel,level\n1,-50\n").Log.Places);
    }

    [Theory]
    [InlineData("time,channel,level\n2026-05-02 18:30:00,1,-50\n2026-05-02 18:30:02.5,2,-50\n", "2026-05-02 18:30:00", 2_500)]
    [InlineData("timestamp,channel,level\n2026-05-02T23:59:59Z,1,-50\n2026-05-03T00:00:01+02:00,2,-50\n", "2026-05-02 23:59:59", 2_000)]
    [InlineData("time;channel;level\n2026/05/02 18:30;1;-50\n2026/05/02 18:31;2;-50\n", "2026-05-02 18:30:00", 60_000)]
    [InlineData("time,channel,level\n23:59:59.25,1,-50\n00:00:01,2,-50\n", null, 1_750)]
    [InlineData("time (s),channel,level\n10.5,1,-50\n12,2,-50\n", null, 1_500)]
    [InlineData("time_ms,channel,level\n10,1,-50\n1510,2,-50\n", null, 1_500)]
    [InlineData("time_us,channel,level\n10,1,-50\n1500010,2,-50\n", null, 1_500)]
    // 1777746600 s after 1970-01-01 00:00 (POSIX.1-2024, "Seconds Since the Epoch": no leap seconds): 20575 days of 86,400 s and 66,600 s.
    [InlineData("time,channel,level\n1777746600,1,-50\n1777746601.5,2,-50\n", "2026-05-02 18:30:00", 1_500)]
    public void Times_in_the_form_of_the_first_row(string text, string? begun, int milliseconds)
    {
        var (log, sweeps) = Surveys.Read(text);
        Assert.Equal(begun, log.Begun?.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture));
        Assert.Equal((new Duration(milliseconds * 1_000_000L), true, 0), (log.Lasted, log.HasTimes, log.Broken));
        Assert.Equal(log.Lasted, sweeps[^1].At);
    }

    [Fact]
    public void A_time_in_the_first_row_of_a_sweep_holds_for_the_rows_below() => Assert.Equal(
        ["log 1 at 0 ms: 1 1/1, 2 1/1", "log 2 at 3000 ms: 1 1/1, 2 1/1"], Surveys.Said("time,channel,level\n18:30:00,1,-50\n,2,-50\n18:30:03,1,-50\n,2,-50\n"));

    [Fact]
    public void Without_times_those_that_are_stated_count_and_time_goes_on_with_the_dwell()
    {
        var started = new DateTime(2026, 5, 2, 18, 30, 0);
        var (log, sweeps) = Surveys.Read("channel,hits,samples\n1,5,1000\n2,0,1000\n1,0,1000\n", new() { Started = started, Dwell = Duration.FromMicroseconds(200) });
        Assert.Equal((started, false, new Duration(600_000_000)), (log.Begun, log.HasTimes, log.Lasted));
        Assert.Equal([400, 600], sweeps.Select(sweep => sweep.At!.Value.Nanoseconds / 1_000_000));
        Assert.Null(Surveys.Read("channel,level\n1,-50\n").Log.Lasted);
        Assert.Equal(started, Surveys.Read("# started: 2026-05-02 18:30\nchannel,level\n1,-50\n").Log.Begun);
    }

    [Theory]
    [InlineData("channel,hits,samples,dwell\n1,5,100,160\n1,5,100,250\n1,1,100,150\n", 150, 4, 9)]
    [InlineData("# dwell: 0.16 ms\nchannel,hits,samples\n1,5,100\n", 160, 1, 10)]
    [InlineData("channel,hits,samples,dwell (ms)\n1,5,100,0.16\n", 160, 2, 9)]
    public void Dwell_is_told_with_its_place(string text, int microseconds, int line, int column)
    {
        var dwell = Surveys.Read(text).Log.Dwell!.Value;
        Assert.Equal((microseconds, line, column), ((int)dwell.Time.Microseconds, dwell.Place.From.Line, dwell.Place.From.Column));
    }

    [Theory]
    [InlineData("channel,level\n2\n3,-50\n", 2, 2, "it has fewer cells than the 2 of the header")]
    [InlineData("channel,level\n2,-60,7\n3,-50\n", 2, 7, "it has more cells than the 2 of the header")]
    [InlineData("channel,level\n126,-60\n3,-50\n", 2, 1, "`126` is no channel from 0 to 125")]
    [InlineData("channel,level\n2, -64,5\n3,-50\n", 2, 8, "it has more cells than the 2 of the header")]
    [InlineData("channel;level\n2; -64,5\n3;-50\n", 2, 4, "`-64,5` is no level: the decimal mark is the point")]
    [InlineData("channel;level\n3;-50\n2;high\n", 3, 3, "`high` is no level")]
    [InlineData("channel;level\n2;-200.01\n3;-50\n", 2, 3, "-200.01 is no level in dBm, which lies from -200 to 30")]
    [InlineData("channel;level\n2;30.01\n3;-50\n", 2, 3, "30.01 is no level in dBm, which lies from -200 to 30")]
    [InlineData("frequency;level\nx;-60\n2403;-50\n", 2, 1, "`x` is no frequency")]
    [InlineData("channel;hits;samples\n3;0;0\n3;1;1\n", 2, 5, "`0` is no number of samples")]
    [InlineData("channel;hits;samples\n3;-1;5\n3;1;1\n", 2, 3, "`-1` is no count")]
    [InlineData("channel;hits;samples\n3;6;5\n3;1;1\n", 2, 1, "channel 3 was heard 6 times in 5 samples")]
    [InlineData("time;channel;level\n1.5;3;-50\n18:30:00;3;-50\n", 3, 1, "`18:30:00` is no time in the form of the rows before")]
    [InlineData("time;channel;level\n2026-02-30 10:00:00;3;-50\n1;3;-50\n", 2, 1, "`2026-02-30 10:00:00` is no time in the form of the rows before")]
    [InlineData("2402,2403,2404\n0,4,2\n,-50,\n", 2, 1, "none of its levels is below 0 dBm: for counts a column `samples` says out of how many")]
    [InlineData("samples,2402,2403\n5,6,0\n1,,1\n", 2, 1, "channel 2 was heard 6 times in 5 samples")]
    [InlineData("sweep,channel,level\nx,3,-50\n1,3,-50\n", 2, 1, "`x` is no number of a sweep")]
    public void A_broken_row_costs_itself_alone_and_the_first_is_named(string text, int line, int column, string fault)
    {
        var (log, sweeps) = Surveys.Read(text);
        Assert.Equal((1, line, column, fault), (log.Broken, log.FirstBroken!.Value.Place.From.Line, log.FirstBroken.Value.Place.From.Column, log.FirstBroken.Value.Fault));
        Assert.Equal((1L, 1L), (log.Samples[3], log.Heard[3]));
        Assert.Single(sweeps);
    }

    [Theory]
    [InlineData("level,time\n-50,1\n", "it looks like a header, but it has no column `frequency` or `channel`")]
    [InlineData("channel,temperature\n1,20\n", "it looks like a header, but it has no column `level`, and no `heard` with `samples`")]
    [InlineData("channel,hits\n1,20\n", "it looks like a header, but it has a column `heard` and none `samples`, which says out of how many")]
    [InlineData("5180 MHz,5200 MHz\n-50,-60\n", "it looks like a header, but none of its columns lies between 2400 MHz and 2525 MHz")]
    public void A_header_that_lacks_something_is_told(string text, string fault)
    {
        var (log, sweeps) = Surveys.Read(text);
        Assert.Equal((SurveyForm.None, 1, fault), (log.Form, log.Broken, log.FirstBroken!.Value.Fault));
        Assert.Empty(sweeps);
    }

    [Theory]
    [InlineData("")]
    [InlineData("just text, with a comma\nand more\n")]
    [InlineData("-80,-81,-82\n-80,-79,-81\n")]
    [InlineData("0,0,3\n1,0,2\n")]
    public void What_is_no_table_is_none(string text)
    {
        var (log, sweeps) = Surveys.Read(text);
        Assert.Equal((SurveyForm.None, 0), (log.Form, log.Broken));
        Assert.Empty(sweeps);
    }

    [Fact]
    public void Logs_one_behind_the_other_bring_their_headers() =>
        Assert.Equal(["log 1: 1 1/1", "log 1: 2 0/1", "log 1: 3 5/9"], Surveys.Said("channel,level\n1,-50\nchannel,level\n2,-90\nchannel,hits,samples\n3,5,9\n"));

    // A last line without an end may be the beginning of a longer one: `-8` of `-85`.
    [Fact]
    public void A_table_that_is_cut_anywhere_is_used_up_to_there()
    {
        const string text = "time,place,channel,level\r\n1.5,shed,10,-85.5\r\n2.5,shed,11,-50\r\n3.5,shed,10,-64.25\r\n4.5,shed,11,-63\r\n";
        var whole = Surveys.Read(text).Log;
        for (var at = 0; at < text.Length; at++)
        {
            var (log, sweeps) = Surveys.Read(text[..at]);
            var rows = Math.Max(0, text[..at].Count(c => c == '\r') - 1);
            Assert.Equal((0, rows), (log.Broken, (int)log.Samples.Sum()));
            Assert.True(log.Heard.Sum() <= whole.Heard.Sum());
            Assert.Equal(at > 0 && text[at - 1] is not ('\r' or '\n'), log.EndsOpen);
            Assert.True(sweeps.Count <= 2);
        }
    }

    [Theory]
    [InlineData("de-DE")]
    [InlineData("tr-TR")]
    [InlineData("ar-SA")]
    public void No_culture_changes_anything(string culture)
    {
        const string text = "TIME;FREQUENCY (MHZ);LEVEL\n1.5;2402.0;-63.5\n2.5;2412.0;-90\n3.5;2402.0;1,5\n";
        var said = string.Join('|', Surveys.Said(text)) + Surveys.Read(text).Log.FirstBroken!.Value.Fault;
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new(culture);
            Assert.Equal(said, string.Join('|', Surveys.Said(text)) + Surveys.Read(text).Log.FirstBroken!.Value.Fault);
            Assert.Equal("log 1 at 1000 ms: 2 1/1, 12 0/1`1,5` is no level: the decimal mark is the point", said);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
