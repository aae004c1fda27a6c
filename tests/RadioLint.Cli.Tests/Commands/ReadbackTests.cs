using System.Text;
using System.Text.Json;
using RadioLint.Cli.Tests.Support;
using RadioLint.Readback;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

/// <summary>What `readback` says of logs, and when it refuses; what it judges is tested where it is judged.</summary>
public sealed class ReadbackTests : IDisposable
{
    private const string Manifest = "first-pair.radio.yaml";
    private readonly TemporaryFolder folder = new();

    public ReadbackTests() => folder.Write(Manifest, File.ReadAllText(Path.Combine(Repository.Root, "docs", "examples", "first-pair", Manifest)));

    public void Dispose() => folder.Dispose();

    [Fact]
    public void The_verdict_comes_first_then_differences_then_the_moment()
    {
        folder.Write("bench.log", string.Join("\r\n", [
            Line("rl1 boot hall E6634F9D 98D6AA3C"), Line("rl1 reg hall 00 0F"), "noise", "rl1 reg hall 01 02 *00", Line("rl1 reg hall 05 4B"),
            Line("rl1 reg hall 07 0E"), Line("rl1 end hall 3"), Line("rl1 boot cellar E6634F9D 8A74CBBC"), Line("rl1 reg cellar 05 4A"), Line("rl1 end cellar 1")]));
        Snapshot.Matches("readback-text", CommandRun.Of(folder.Path, "readback", Manifest, "bench.log").ToString());
        Snapshot.Matches("readback-json", CommandRun.Of(folder.Path, "readback", Manifest, "bench.log", "--format", "json").ToString());
        Snapshot.Matches("readback-one-node", CommandRun.Of(folder.Path, "readback", Manifest, "bench.log", "--node", "cellar").ToString());
    }

    [Fact]
    public void Json_reads_as_json()
    {
        folder.Write("a.log", "RF_CH = 0x02\nRX_ADDR_P1 = 0xAB7A47AC4F\nSTATUS = 0x0E\n");
        using var json = JsonDocument.Parse(CommandRun.Of(folder.Path, "readback", Manifest, "a.log", "--node", "hall", "--format", "json").Results);
        var node = json.RootElement.GetProperty("nodes")[0];
        Assert.Equal(("differs", "air", 14), (node.GetProperty("verdict").GetString(), node.GetProperty("addressOrder").GetString(), node.GetProperty("live")[0].GetProperty("value").GetInt32()));
        Assert.Equal("RL3901", json.RootElement.GetProperty("findings")[0].GetProperty("rule").GetString());
    }

    [Theory]
    [InlineData(0, "RF_CH 4A")]
    [InlineData(1, "RF_CH 4B")]
    [InlineData(0, "RF_CH 4B", "--fail-on", "none")]
    [InlineData(0, "RF_CH 4B", "--rule", "RL3901=warning")]
    [InlineData(1, "RF_CH 4B", "--rule", "RL3901=warning", "--fail-on", "warning")]
    [InlineData(0, "FIFO_STATUS 12")]
    [InlineData(1, "FIFO_STATUS 12", "--fail-on", "warning")]
    public void The_status_tells(int status, string log, params string[] more)
    {
        folder.Write("a.log", log);
        Assert.Equal(status, (int)CommandRun.Of(folder.Path, ["readback", Manifest, "a.log", "--node", "hall", .. more]).Status);
    }

    [Fact]
    public void Standard_input_and_other_encodings_are_read()
    {
        CommandRun From(byte[] input) => CommandRun.Of(folder.Path, around => around with { Input = new MemoryStream(input) }, "readback", Manifest, "-", "--node", "hall");
        var run = From(Encoding.UTF8.GetBytes("RF_CH 4B\n"));
        Assert.Equal(ExitStatus.Failed, run.Status);
        Assert.Contains("<stdin>:1:7: error RL3901", run.Results, StringComparison.Ordinal);
        // As some terminals save it.
        Assert.Contains("<stdin>:1:7: error RL3901", From([.. Encoding.Unicode.GetPreamble(), .. Encoding.Unicode.GetBytes("RF_CH 4B\r\n")]).Results, StringComparison.Ordinal);
        Assert.Contains("<stdin>:2:7: error RL3901", From([0xFE, 0xFD, (byte)'\n', .. Encoding.UTF8.GetBytes("RF_CH 4B\n")]).Results, StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_issued_before_is_told_from_the_record()
    {
        var now = File.ReadAllText(folder.At(Manifest));
        folder.Write(Manifest, now.Replace("channel: 74", "channel: 40", StringComparison.Ordinal));
        Assert.Equal(ExitStatus.Passed, CommandRun.Of(folder.Path, "emit", folder.At(Manifest), "--out", folder.At("firmware")).Status);
        folder.Write(Manifest, now);
        folder.Write("a.log", "RF_CH 28\nEN_AA 02\n");
        // Before and after the next emit: the manifest counts, not what was issued last.
        for (var i = 0; i < 2; i++)
        {
            var run = CommandRun.Of(folder.Path, "readback", Manifest, "a.log", "--node", "hall");
            Assert.Equal(ExitStatus.Passed, run.Status);
            Assert.Contains("info RL1908: `hall` holds all 2 registers as the plan before had them", run.Results, StringComparison.Ordinal);
            Assert.Equal(ExitStatus.Passed, CommandRun.Of(folder.Path, "emit", folder.At(Manifest), "--out", folder.At("firmware")).Status);
        }
        folder.Write("first-pair.radio.issued.json", "{");
        var broken = CommandRun.Of(folder.Path, "readback", Manifest, "a.log", "--node", "hall");
        Assert.Equal("radiolint: `first-pair.radio.issued.json` is not used: the record is no JSON\n", broken.Notes);
        Assert.Contains("error RL3901", broken.Results, StringComparison.Ordinal);
    }

    [Fact]
    public void Nodes_that_the_manifest_does_not_have_are_named()
    {
        folder.Write("a.log", $"{Line("rl1 reg halt 05 4B")}\n{Line("rl1 reg hall 05 4A")}\n");
        var run = CommandRun.Of(folder.Path, "readback", Manifest, "a.log");
        Assert.Equal((ExitStatus.Passed, "radiolint: the manifest has no node `halt` (line 1); the nearest is `hall`\n"), (run.Status, run.Notes));
    }

    [Theory]
    [InlineData("`radiolint readback` needs LOG, or `--port DEVICE`; see `radiolint readback --help`", Manifest)]
    [InlineData("`radiolint readback` has no use for `b`; see `radiolint readback --help`", Manifest, "a", "b")]
    [InlineData("`radiolint readback` needs FILE; see `radiolint readback --help`")]
    [InlineData("`--port` takes the place of the log; see `radiolint readback --help`", Manifest, "plain.log", "--port", "/dev/x")]
    [InlineData("`--baud` and `--for` go with `--port`", Manifest, "plain.log", "--baud", "9600")]
    [InlineData("`--baud` takes a number from 1 to 4000000, not `fast`", Manifest, "--port", "/dev/x", "--baud", "fast")]
    [InlineData("`--for` takes a number from 1 to 3600, not `0`", Manifest, "--port", "/dev/x", "--for", "0")]
    [InlineData("there is no port `/dev/no-such-port`; look at its name with the adapter plugged in, such as /dev/ttyUSB0 or /dev/ttyACM0", Manifest, "--port", "/dev/no-such-port")]
    [InlineData("`radiolint readback` takes one manifest, and `-` is none; name a file; standard input is for the log", "-", "plain.log")]
    [InlineData("`radiolint readback` takes one manifest, and `.` is none; name a file; standard input is for the log", ".", "plain.log")]
    [InlineData("cannot read `none.log`: there is no such file or folder", Manifest, "none.log")]
    [InlineData("cannot read `sub`: it is a folder", Manifest, "sub")]
    [InlineData("the manifest has no node `hal`; the nearest is `hall`", Manifest, "plain.log", "--node", "hal")]
    [InlineData("the listing does not say whose it is; add `--node NAME`; its registers come nearest to those of `hall`", Manifest, "plain.log")]
    [InlineData("`empty.log` holds no report and no listing of registers in 2 lines; log what a node prints at its start, at the speed that its hooks state", Manifest, "empty.log")]
    [InlineData("`other.log` tells nothing of `hall`; it tells of `shed`", Manifest, "other.log", "--node", "hall")]
    public void What_cannot_be_done_is_refused_in_one_line(string note, params string[] args)
    {
        folder.Write("plain.log", "CONFIG 0F\nEN_AA 02\n");
        folder.Write("empty.log", "radio as planned\nand so on\n");
        folder.Write("other.log", Line("rl1 beat shed 1"));
        Directory.CreateDirectory(folder.At("sub"));
        var run = CommandRun.Of(folder.Path, ["readback", .. args]);
        Assert.Equal((ExitStatus.NotDone, "", $"radiolint: {note}\n"), (run.Status, run.Results, run.Notes));
    }

    [Fact]
    public void A_manifest_that_does_not_read_is_told_with_its_findings()
    {
        folder.Write("bad.radio.yaml", "radiolint: 1\nnetwork: [\n");
        folder.Write("a.log", "RF_CH 4A");
        var run = CommandRun.Of(folder.Path, "readback", "bad.radio.yaml", "a.log");
        Assert.Equal(ExitStatus.Failed, run.Status);
        Assert.Contains("error RL8001", run.Results, StringComparison.Ordinal);
    }

    // 100 MB, in a process that may use as much managed memory as two or three of the program's buffers.
    [Fact]
    public void A_log_of_100_MB_streams_in_bounded_memory()
    {
        var listing = new StringBuilder();
        foreach (var register in new[] { "00 0F", "05 4A", "07 0E" })
            listing.Append(Line($"rl1 reg hall {register}")).Append("\r\n");
        listing.Append(Line("rl1 end hall 3")).Append("\r\n").Append(Line("rl1 rx hall 1 D70001")).Append("\r\n").Append('x', 300).Append("\r\n");
        var piece = Encoding.ASCII.GetBytes(string.Concat(Enumerable.Repeat(listing.ToString(), 1_000)));
        var pieces = 100_000_000 / piece.Length;
        using (var file = File.Create(folder.At("long.log")))
        {
            for (var i = 0; i < pieces; i++)
                file.Write(piece);
        }
        var child = Child.Shell(folder.Path, $"DOTNET_GCHeapHardLimit=0x4000000 $RADIOLINT readback {Manifest} long.log");
        Assert.Equal((0, ""), (child.Status, child.Notes));
        Assert.StartsWith("hall: as planned, 2 registers compared", child.Results, StringComparison.Ordinal);
        Assert.Contains(FormattableString.Invariant($"{pieces * 1_000} listings, {pieces * 1_000} packets"), child.Results, StringComparison.Ordinal);
    }

    // Bytes of any kind, and one line without end.
    [Fact]
    public void A_hostile_log_is_answered()
    {
        var random = new Random(1);
        var bytes = new byte[3_000_000];
        random.NextBytes(bytes);
        File.WriteAllBytes(folder.At("noise.log"), bytes);
        Assert.InRange((int)CommandRun.Of(folder.Path, "readback", Manifest, "noise.log", "--node", "hall").Status, 0, 2);
        folder.Write("open.log", "rl1 reg hall 00 " + new string('0', 20_000_000));
        var run = CommandRun.Of(folder.Path, "readback", Manifest, "open.log");
        Assert.Equal((ExitStatus.NotDone, true), (run.Status, run.Notes.Contains("in 1 lines", StringComparison.Ordinal)));
    }

    private static string Line(string text) => $"{text} *{ReportText.CheckOf(text):X2}";
}
