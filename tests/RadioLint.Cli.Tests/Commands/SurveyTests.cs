using System.Globalization;
using System.Text;
using System.Text.Json;
using RadioLint.Cli.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

/// <summary>What `survey` says, and when it refuses; reading, ranking and rules are tested where they are.</summary>
public sealed class SurveyTests : IDisposable
{
    private const string Plan = "pair.radio.yaml";

    private readonly TemporaryFolder folder = new();

    public SurveyTests()
    {
        folder.Write(Plan, Pair("pair", 74));
        folder.Write("hall.log", Reports("hall", 8));
    }

    public void Dispose() => folder.Dispose();

    [Fact]
    public void The_apiary_reads_like_this()
    {
        var examples = Path.Combine(Repository.Root, "docs", "examples", "larkfield-apiary");
        var run = CommandRun.Of(examples, "survey", "larkfield-apiary.radio.yaml");
        Snapshot.Matches("survey-apiary", run.ToString());
        // The page shows it up to the findings.
        var page = File.ReadAllText(Path.Combine(Repository.Root, "docs", "survey.md")).Split("```text\n").Single(block => block.StartsWith("larkfield-apiary: ", StringComparison.Ordinal));
        Assert.StartsWith(page.Split("```")[0], run.Results, StringComparison.Ordinal);
    }

    [Fact]
    public void Text_and_json_of_reports()
    {
        Snapshot.Matches("survey-text", Survey("hall.log", "--started", "2026-05-20 18:30").ToString());
        var json = Survey("hall.log", "--started", "2026-05-20 18:30", "--format", "json").Results;
        using var read = JsonDocument.Parse(json);
        var network = read.RootElement.GetProperty("networks")[0];
        Assert.Equal(126, network.GetProperty("channels").GetArrayLength());
        Assert.Equal((74, "pair"), (network.GetProperty("planned").GetInt32(), network.GetProperty("network").GetString()));
        Assert.Equal(
            (network.GetProperty("best").GetInt32(), 1),
            (network.GetProperty("channels").EnumerateArray().Single(one => one.TryGetProperty("rank", out var rank) && rank.GetInt32() == 1).GetProperty("channel").GetInt32(), read.RootElement.GetProperty("version").GetInt32()));
        // All but the middle of the list, which is more of the same.
        var lines = json.Split('\n');
        var (from, to) = (Array.FindIndex(lines, line => line.Contains("\"channel\": 2,", StringComparison.Ordinal)) - 1, Array.FindIndex(lines, line => line.Contains("\"channel\": 124,", StringComparison.Ordinal)) - 1);
        Snapshot.Matches("survey-json", string.Join('\n', lines[..from].Append("      ...").Concat(lines[to..])));
    }

    [Fact]
    public void Several_networks_of_a_site_get_channels_apart()
    {
        folder.Write("barn.radio.yaml", Pair("barn", 75));
        var run = Survey("barn.radio.yaml", "hall.log", "--place", "hall", "--started", "2026-05-20 18:30", "--format", "json");
        using var json = JsonDocument.Parse(run.Results);
        var best = json.RootElement.GetProperty("networks").EnumerateArray().Select(one => one.GetProperty("best").GetInt32()).ToList();
        Assert.Equal(2, best.Count);
        Assert.True(Math.Abs(best[0] - best[1]) >= 2, string.Join(' ', best));
        // What is true of the log is told once.
        Assert.Single(json.RootElement.GetProperty("findings").EnumerateArray(), finding => finding.GetProperty("rule").GetString() == "RL3306");
        Snapshot.Matches("survey-site", Survey("barn.radio.yaml", "hall.log", "--place", "hall", "--started", "2026-05-20 18:30").ToString());
    }

    [Fact]
    public void Logs_of_the_manifest_are_read_beside_it()
    {
        folder.Write("below/a.radio.yaml", Pair("a", 74, "survey: [ { file: one.csv, place: hall, taken: \"2026-05-20 18:30\", lasted: 12 min }, two.csv ]"));
        folder.Write("below/one.csv", Table("channel,hits,samples", 900));
        folder.Write("below/two.csv", "# place: attic\n# started: 2026-05-20 19:00\n" + Table("channel,hits,samples", 900) + "x,y\n");
        var run = CommandRun.Of(folder.Path, "survey", "below/a.radio.yaml");
        Assert.Contains("read 79 lines of below/one.csv: 1 sweep, taken at hall\n", run.Results, StringComparison.Ordinal);
        Assert.Contains("read 82 lines of below/two.csv: 1 sweep, taken at attic, 1 broken line (the first in line 82, column 1: `x` is no channel from 0 to 125)\n", run.Results, StringComparison.Ordinal);
        Assert.Equal("", run.Notes);
        // One that is named on the command line still has its entry.
        Assert.Contains("one.csv: 1 sweep, taken at hall\n", CommandRun.Of(folder.Path, "survey", "below/a.radio.yaml", "below/../below/one.csv").Results, StringComparison.Ordinal);
    }

    [Fact]
    public void Standard_input_and_other_encodings_are_read()
    {
        CommandRun From(byte[] input) => CommandRun.Of(folder.Path, around => around with { Input = new MemoryStream(input) }, "survey", Plan, "-", "--place", "hall");
        var table = Table("channel,hits,samples", 900);
        foreach (var input in new[] { Encoding.UTF8.GetBytes(table), [.. Encoding.Unicode.GetPreamble(), .. Encoding.Unicode.GetBytes(table)], [.. Encoding.UTF8.GetPreamble(), .. Encoding.UTF8.GetBytes(table)] })
        {
            var run = From(input);
            Assert.Contains("read 79 lines of <stdin>: 1 sweep, taken at hall\n", run.Results, StringComparison.Ordinal);
            Assert.Equal("radiolint: `<stdin>` does not tell when it was taken: add `--started \"YYYY-MM-DD HH:MM\"`, or `taken` to the manifest's `survey`\n", run.Notes);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0, "--fail-on", "warning")]
    [InlineData(1, "--fail-on", "info")]
    [InlineData(1, "--rule", "RL3306=error")]
    [InlineData(0, "--rule", "RL3306=error", "--fail-on", "none")]
    public void The_status_tells(int status, params string[] more) => Assert.Equal(status, (int)Survey(["hall.log", "--started", "2026-05-20 18:30", .. more]).Status);

    [Fact]
    public void Threshold_and_place_are_taken()
    {
        folder.Write("levels.csv", "channel,level\n" + string.Concat(Enumerable.Range(3, 79).Select(channel => Invariant($"{channel},{(channel == 74 ? -70 : -90)}\n"))));
        int Heard(params string[] more)
        {
            using var json = JsonDocument.Parse(Survey(["levels.csv", "--format", "json", .. more]).Results);
            return json.RootElement.GetProperty("networks")[0].GetProperty("channels")[74].GetProperty("busyPpm").GetInt32();
        }
        Assert.Equal(0, Heard());
        Assert.True(Heard("--threshold", "-70") > 0);
        Assert.True(Heard("--threshold", "-70 dBm") > 0);
        Assert.Equal(0, Heard("--threshold", "-69.99"));
    }

    [Fact]
    public void A_log_without_a_sweep_is_left_out_and_told()
    {
        folder.Write("other.log", "hello\n");
        folder.Write("cut.csv", "channel,hits\n1,2\n");
        var run = Survey("other.log", "hall.log", "cut.csv", "--started", "2026-05-20 18:30");
        Assert.Equal(
            "radiolint: `other.log` is not used: it holds no `rl1 sweep` report and no table with a header in 1 line\n"
            + "radiolint: `cut.csv` is not used: no line of it is a sweep; line 1, column 1: it looks like a header, but it has a column `heard` and none `samples`, which says out of how many\n",
            run.Notes);
        Assert.Equal(ExitStatus.Passed, run.Status);
    }

    [Theory]
    [InlineData("`radiolint survey` needs FILE; see `radiolint survey --help`")]
    [InlineData("no log is given, and `pair.radio.yaml` names none under `survey`; add LOG, or `--port DEVICE`", Plan)]
    [InlineData("cannot read `none.log`: there is no such file or folder", Plan, "none.log")]
    [InlineData("cannot read `sub`: it is a folder", Plan, "sub")]
    [InlineData("cannot read `gone.radio.yaml`: there is no such file or folder", "gone.radio.yaml", "hall.log")]
    [InlineData("`radiolint survey` takes a manifest first, and `-` is none; name a file; standard input is for a log", "-", "hall.log")]
    [InlineData("`radiolint survey` takes a manifest first, and `.` is none; name a file; standard input is for a log", ".")]
    [InlineData("`--port` takes the place of logs; see `radiolint survey --help`", Plan, "hall.log", "--port", "/dev/x")]
    [InlineData("`--minutes` and `--baud` go with `--port`", Plan, "hall.log", "--minutes", "5")]
    [InlineData("`--minutes` takes a number from 1 to 1440, not `0`", Plan, "--port", "/dev/x", "--minutes", "0")]
    [InlineData("`--baud` takes a number from 1 to 4000000, not `fast`", Plan, "--port", "/dev/x", "--baud", "fast")]
    [InlineData("there is no port `/dev/no-such-port`; look at its name with the adapter plugged in, such as /dev/ttyUSB0 or /dev/ttyACM0", Plan, "--port", "/dev/no-such-port", "--baud", "9600")]
    [InlineData("`--started` takes a time such as \"2026-05-02 18:30\", not `yesterday`", Plan, "hall.log", "--started", "yesterday")]
    [InlineData("`--threshold` takes a level in dBm such as -64, not `loud`", Plan, "hall.log", "--threshold", "loud")]
    [InlineData("`--threshold` takes a level in dBm such as -64, not `-64.001`", Plan, "hall.log", "--threshold", "-64.001")]
    [InlineData("`--place` takes a name of at most 80 characters", Plan, "hall.log", "--place", "")]
    [InlineData("cannot write `no/such/x.svg`: there is no such file or folder", Plan, "hall.log", "--started", "2026-05-20 18:30", "--plot", "no/such/x.svg")]
    [InlineData("`../out.csv`, which leaves.radio.yaml:5:9 names, lies outside of the manifest's folder; name it on the command line if it is to be read", "leaves.radio.yaml")]
    [InlineData("there is no `gone.csv`, which missing.radio.yaml:5:9 names; name another log on the command line, or survey anew", "missing.radio.yaml")]
    public void What_cannot_be_done_is_refused_in_one_line(string note, params string[] args)
    {
        folder.Write("missing.radio.yaml", Pair("missing", 74, "survey: gone.csv"));
        folder.Write("leaves.radio.yaml", Pair("leaves", 74, "survey: ../out.csv"));
        Directory.CreateDirectory(folder.At("sub"));
        var run = CommandRun.Of(folder.Path, ["survey", .. args]);
        Assert.Equal((ExitStatus.NotDone, "", $"radiolint: {note}\n"), (run.Status, run.Results, run.Notes));
    }

    [Theory]
    [InlineData("de-DE")]
    [InlineData("ar-SA")]
    public void No_culture_changes_anything(string culture)
    {
        string[] log = ["hall.log", "--started", "2026-05-20 18:30", "--plot", folder.At("a.svg")];
        string All() => Survey(log).ToString() + Survey([.. log, "--format", "json"]) + File.ReadAllText(folder.At("a.svg"));
        var (before, said) = (CultureInfo.CurrentCulture, All());
        try
        {
            CultureInfo.CurrentCulture = new(culture);
            Assert.Equal(said, All());
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void A_link_does_not_lead_out_of_the_manifests_folder()
    {
        folder.Write("below/a.radio.yaml", Pair("a", 74, "survey: linked.log"));
        File.CreateSymbolicLink(folder.At("below/linked.log"), folder.At("hall.log"));
        var run = CommandRun.Of(folder.Path, "survey", "below/a.radio.yaml");
        Assert.Equal(ExitStatus.NotDone, run.Status);
        Assert.Contains("lies outside of the manifest's folder", run.Notes, StringComparison.Ordinal);
        Assert.Equal(ExitStatus.Passed, CommandRun.Of(folder.Path, "survey", "below/a.radio.yaml", "below/linked.log").Status);
    }

    [Fact]
    public void A_log_without_anything_is_refused_with_what_it_lacks()
    {
        folder.Write("other.log", "hello\nworld\n");
        var run = Survey("other.log");
        Assert.Equal(ExitStatus.NotDone, run.Status);
        Assert.Equal(
            "radiolint: `other.log` is not used: it holds no `rl1 sweep` report and no table with a header in 2 lines\nradiolint: no sweep is in `other.log`; see docs/survey.md for the forms that are read\n", run.Notes);
    }

    [Fact]
    public void A_manifest_that_does_not_read_is_told_with_its_findings()
    {
        folder.Write("bad.radio.yaml", "radiolint: 1\nnetwork: [\n");
        var run = CommandRun.Of(folder.Path, "survey", "bad.radio.yaml", "hall.log");
        Assert.Equal(ExitStatus.Failed, run.Status);
        Assert.Contains("error RL8001", run.Results, StringComparison.Ordinal);
    }

    // 100 MB of each form, in a process that may use as much managed memory as two or three of the program's buffers.
    [Theory]
    [InlineData("reports")]
    [InlineData("samples")]
    [InlineData("sweeps")]
    public void A_log_of_100_MB_streams_in_bounded_memory(string form)
    {
        var piece = new StringBuilder();
        if (form == "reports")
            piece.Append(string.Concat(Enumerable.Range(1, 500).Select(number => Sweep("hall", number))));
        else if (form == "samples")
            piece.Append(string.Concat(Enumerable.Range(0, 50_000).Select(i => Invariant($"2026-05-20 18:30:00.250,{2_400 + (i % 100)},-9{i % 10}.25\n"))));
        else
            piece.Append(string.Concat(Enumerable.Range(0, 1_000).Select(i => "18:30:00," + string.Join(',', Enumerable.Range(0, 1_000).Select(at => Invariant($"-9{(i + at) % 10}.5"))) + "\n")));
        var head = form switch { "samples" => "time,frequency (MHz),level\n", "sweeps" => "time," + string.Join(',', Enumerable.Range(0, 1_000).Select(at => Invariant($"{2400 + (at / 10)}.{at % 10}"))) + "\n", _ => "" };
        var bytes = Encoding.ASCII.GetBytes(piece.ToString());
        using (var file = File.Create(folder.At("long.log")))
        {
            file.Write(Encoding.ASCII.GetBytes(head));
            for (var written = 0; written < 100_000_000; written += bytes.Length)
                file.Write(bytes);
        }
        var watch = System.Diagnostics.Stopwatch.StartNew();
        var child = Child.Shell(folder.Path, $"DOTNET_GCHeapHardLimit=0x4000000 $RADIOLINT survey {Plan} long.log --place hall --started '2026-05-20 18:30'");
        TestContext.Current.SendDiagnosticMessage(Invariant($"100 MB of {form}: {watch.Elapsed.TotalSeconds:0.0} s"));
        Assert.Equal((0, ""), (child.Status, child.Notes));
        Assert.Contains(" of long.log: ", child.Results, StringComparison.Ordinal);
        Assert.DoesNotContain("broken", child.Results, StringComparison.Ordinal);
    }

    [Fact]
    public void Hostile_names_do_not_steer_the_terminal()
    {
        folder.Write("evil.csv", "place,channel,hits,samples\n\u001b[2Jx\u202e,74,1,100\n\u001b[2Jx\u202e,70,1,100\n");
        var run = Survey("evil.csv");
        Assert.DoesNotContain('\u001b', run.Results + run.Notes);
        Assert.DoesNotContain('\u202e', run.Results + run.Notes);
        Assert.DoesNotContain("\u001b", Survey("evil.csv", "--format", "json").Results, StringComparison.Ordinal);
    }

    private CommandRun Survey(params string[] args) => CommandRun.Of(folder.Path, ["survey", Plan, .. args]);

    private static string Pair(string name, int channel, string more = "x-note: two nodes") => Invariant($$"""
        radiolint: 1
        network: {{name}}
        region: GB
        air: { channel: {{channel}}, rate: 1 Mbps, neighbours: { wifi: [6], bluetooth-le: true } }
        {{more}}
        nodes:
          hall: { board: esp32, radio: { antenna: 0 dBi }, supply: { from: board pin }, pins: { ce: GPIO27, csn: GPIO5 } }
          cellar: { board: atmega328p, radio: { antenna: 0 dBi }, supply: { from: adapter, input: 5 V }, pins: { ce: D9, csn: D10 } }
        links: [ { from: cellar, to: hall, payload: reading, every: 1 min, distance: 20 m, setting: house } ]
        payloads: { reading: { temperature: int16 0.1 degC, sequence: uint8 } }
        """);

    // Channels 3 to 80, one sample row each.
    private static string Table(string header, int samples) =>
        header + "\n" + string.Concat(Enumerable.Range(3, 78).Select(channel => Invariant($"{channel},{channel % 3},{samples}\n")));

    /// <summary>Wi-Fi in the middle, something now and then elsewhere.</summary>
    private static string Reports(string node, int sweeps) => string.Concat(Enumerable.Range(1, sweeps).Select(number => Sweep(node, number)));

    private static string Sweep(string node, int number) => PrintedSweep.Of(node, number, channel => Hits(channel, number));

    private static int Hits(int channel, int number) => channel is >= 28 and <= 46 ? 10 + ((number * 7) % 9) : (channel * 31 + number * 17) % 97 == 0 ? 1 : 0;

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
