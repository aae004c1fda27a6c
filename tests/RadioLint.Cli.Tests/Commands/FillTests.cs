using System.Diagnostics;
using System.Text;
using System.Text.Json;
using RadioLint.Cli.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

/// <summary>`fill` chooses what is open, writes it and nothing else, and says why.</summary>
public sealed class FillTests
{
    private const string Open = """
        radiolint: 1
        network: cellar
        region: GB
        air: { channel: open, rate: 1 Mbps, neighbours: { wifi: [1, 6] } }   # see the survey
        nodes:
          hall: { board: esp32, supply: { from: regulator, part: AP2112K-3.3, input: 5 V, capacitor: 10 uF ceramic }, wires: 5 cm, wifi: none }
          cellar: { board: atmega328p, supply: { from: adapter, input: 5 V, capacitor: 10 uF ceramic }, wires: 5 cm, pins: { ce: D9 } }
        links:
          - { from: cellar, to: hall, payload: reading, every: 1 min }
        payloads:
          reading: { temperature: int16 0.1 degC, sequence: uint8 }

        """;

    [Fact]
    public void What_it_says()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Open);
        Snapshot.Matches("fill-text", CommandRun.Of(folder.Path, "fill", "a.radio.yaml").ToString() + "--- file\n" + File.ReadAllText(folder.At("a.radio.yaml")));
        Snapshot.Matches("fill-again", CommandRun.Of(folder.Path, "fill", "a.radio.yaml").ToString());
        folder.Write("a.radio.yaml", Open);
        Snapshot.Matches("fill-json", CommandRun.Of(folder.Path, "fill", "a.radio.yaml", "--format", "json").ToString());
    }

    [Fact]
    public void The_file_is_filled_and_clean_and_a_second_time_there_is_nothing_to_do()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Open);
        Assert.Equal(0, (int)CommandRun.Of(folder.Path, "fill", "a.radio.yaml").Status);
        var once = File.ReadAllBytes(folder.At("a.radio.yaml"));
        Assert.DoesNotContain("open", Encoding.UTF8.GetString(once), StringComparison.Ordinal);
        Assert.Contains("# see the survey", Encoding.UTF8.GetString(once), StringComparison.Ordinal);
        Assert.Equal(0, (int)CommandRun.Of(folder.Path, "check", "a.radio.yaml", "--fail-on", "warning").Status);
        var again = CommandRun.Of(folder.Path, "fill", "a.radio.yaml");
        Assert.Equal(0, (int)again.Status);
        Assert.Contains("nothing is open", again.Results, StringComparison.Ordinal);
        Assert.Equal(once, File.ReadAllBytes(folder.At("a.radio.yaml")));
        Assert.Equal(["a.radio.yaml"], Directory.EnumerateFiles(folder.Path).Select(Path.GetFileName));
    }

    // Fields keep their places and their comments; the list says how they are sent, and `emit` takes it.
    [Fact]
    public void An_open_order_of_fields_becomes_a_list()
    {
        using var folder = new TemporaryFolder();
        var open = Open.Replace("channel: open", "channel: 74", StringComparison.Ordinal).Replace("pins: { ce: D9 }", "pins: { ce: D9, csn: D10 }, power: 0 dBm, retry: { delay: 500 us }", StringComparison.Ordinal)
            .Replace("wires: 5 cm, wifi: none", "wires: 5 cm, wifi: none, pins: { ce: GPIO27, csn: GPIO5 }", StringComparison.Ordinal)
            .Replace("reading: { temperature: int16 0.1 degC, sequence: uint8 }", """
                reading:
                    fields:
                      sequence: uint8               # counts up
                      weight: int32 g               # of the scale
                      version: uint8 = 1
                      temperature: int16 0.1 degC   # of the rafters
                    order: open                     # to be chosen
                """, StringComparison.Ordinal);
        folder.Write("a.radio.yaml", open);
        var refused = CommandRun.Of(folder.Path, "emit", "a.radio.yaml", "--out", folder.At("out"));
        Assert.Equal(1, (int)refused.Status);
        Assert.Contains("error RL8305: the order of the fields of `reading` is still open", refused.ToString(), StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder.At("out")));
        var run = CommandRun.Of(folder.Path, "fill", "a.radio.yaml");
        Assert.Equal(0, (int)run.Status);
        Assert.Contains("order of payload `reading`: [version, sequence, temperature, weight] (8 bytes; all fields stand at multiples of their size; as written 1 would not)", run.ToString(), StringComparison.Ordinal);
        Assert.Equal(open.Replace("order: open ", "order: [version, sequence, temperature, weight] ", StringComparison.Ordinal), File.ReadAllText(folder.At("a.radio.yaml")));
        Assert.Equal(0, (int)CommandRun.Of(folder.Path, "emit", "a.radio.yaml", "--out", folder.At("out")).Status);
        var header = File.ReadAllText(folder.At("out/cellar_radio.h"));
        Assert.True(header.IndexOf("sequence", StringComparison.Ordinal) < header.IndexOf("temperature", StringComparison.Ordinal), header);
    }

    // git is the outsider: it takes the difference and must come to the same file.
    [Fact]
    public void The_difference_is_one_that_git_applies()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Open);
        var dry = CommandRun.Of(folder.Path, "fill", "a.radio.yaml", "--dry-run");
        Assert.Equal(0, (int)dry.Status);
        Assert.Contains("would be set", dry.Notes, StringComparison.Ordinal);
        Assert.Equal(Open, File.ReadAllText(folder.At("a.radio.yaml")));
        folder.Write("change.patch", dry.Results);
        using (var git = Process.Start(new ProcessStartInfo("git", ["apply", "--unsafe-paths", "--directory", folder.Path, "change.patch"]) { WorkingDirectory = folder.Path })!)
        {
            git.WaitForExit();
            Assert.Equal(0, git.ExitCode);
        }
        var applied = File.ReadAllText(folder.At("a.radio.yaml"));
        folder.Write("a.radio.yaml", Open);
        CommandRun.Of(folder.Path, "fill", "a.radio.yaml");
        Assert.Equal(File.ReadAllText(folder.At("a.radio.yaml")), applied);
        Assert.NotEqual(Open, applied);
    }

    [Fact]
    public void Standard_input_goes_filled_to_standard_output()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Open);
        CommandRun.Of(folder.Path, "fill", "a.radio.yaml");
        CommandRun From(string text, params string[] more) => CommandRun.Of(folder.Path, around => around with { Input = new MemoryStream(Encoding.UTF8.GetBytes(text)) }, ["fill", "-", .. more]);
        var run = From(Open);
        Assert.Equal(File.ReadAllText(folder.At("a.radio.yaml")), run.Results);
        Assert.Contains("<stdin>: ", run.Notes, StringComparison.Ordinal);
        Assert.Equal(run.Results, From(run.Results).Results);
        Assert.StartsWith("\uFEFFradiolint", From("\uFEFF" + Open).Results, StringComparison.Ordinal);
        Assert.StartsWith("--- a/<stdin>", From(Open, "--dry-run").Results, StringComparison.Ordinal);
    }

    [Fact]
    public void Json_holds_the_same_edits()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Open);
        using var json = JsonDocument.Parse(CommandRun.Of(folder.Path, "fill", "a.radio.yaml", "--format", "json").Results);
        var text = Open;
        var lines = Open.Split('\n');
        foreach (var edit in json.RootElement.GetProperty("edits").EnumerateArray().Reverse())
        {
            int At(string line, string column) => lines.Take(edit.GetProperty(line).GetInt32() - 1).Sum(one => one.Length + 1) + edit.GetProperty(column).GetInt32() - 1;
            text = text[..At("line", "column")] + edit.GetProperty("text").GetString() + text[At("endLine", "endColumn")..];
        }
        Assert.Equal(File.ReadAllText(folder.At("a.radio.yaml")), text);
        Assert.Equal("filled", json.RootElement.GetProperty("outcome").GetString());
    }

    [Fact]
    public void A_manifest_that_cannot_be_read_as_meant_is_left_alone()
    {
        using var folder = new TemporaryFolder();
        var wrong = Open.Replace("rate: 1 Mbps", "rate: 3 Mbps", StringComparison.Ordinal);
        folder.Write("a.radio.yaml", wrong);
        var run = CommandRun.Of(folder.Path, "fill", "a.radio.yaml");
        Assert.Equal(1, (int)run.Status);
        Assert.StartsWith("a.radio.yaml:4:29: error RL8005: ", run.Results, StringComparison.Ordinal);
        Assert.Equal("radiolint: `a.radio.yaml` cannot be filled before 1 error in reading it is mended\n", run.Notes);
        Assert.Equal(wrong, File.ReadAllText(folder.At("a.radio.yaml")));
        using var json = JsonDocument.Parse(CommandRun.Of(folder.Path, "fill", "a.radio.yaml", "--format", "json").Results);
        Assert.Equal("unreadable", json.RootElement.GetProperty("outcome").GetString());
        Assert.Equal("RL8005", Assert.Single(json.RootElement.GetProperty("findings").EnumerateArray()).GetProperty("rule").GetString());
        folder.Write("empty.radio.yaml", "");
        Assert.Equal(1, (int)CommandRun.Of(folder.Path, "fill", "empty.radio.yaml").Status);
    }

    [Fact]
    public void Demands_that_conflict_are_told_with_their_places_and_the_file_stays()
    {
        using var folder = new TemporaryFolder();
        var impossible = Open.Replace("channel: open,", "channel: open, avoid: [0..90],", StringComparison.Ordinal);
        folder.Write("a.radio.yaml", impossible);
        var run = CommandRun.Of(folder.Path, "fill", "a.radio.yaml");
        Snapshot.Matches("fill-impossible", run.ToString());
        Assert.Equal(1, (int)run.Status);
        Assert.Equal(impossible, File.ReadAllText(folder.At("a.radio.yaml")));
        using var json = JsonDocument.Parse(CommandRun.Of(folder.Path, "fill", "a.radio.yaml", "--format", "json").Results);
        Assert.Equal("impossible", json.RootElement.GetProperty("outcome").GetString());
        Assert.NotEqual(0, json.RootElement.GetProperty("conflict").GetArrayLength());
        var dry = CommandRun.Of(folder.Path, around => around with { Input = new MemoryStream(Encoding.UTF8.GetBytes(impossible)) }, "fill", "-");
        Assert.Equal((1, ""), ((int)dry.Status, dry.Results));
    }

    [Fact]
    public void What_finds_no_pin_is_left_to_the_user()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", "radiolint: 1\nnetwork: x\nregion: GB\nnodes: { a: { board: attiny85 } }\n");
        var run = CommandRun.Of(folder.Path, "fill", "a.radio.yaml");
        Assert.Equal(1, (int)run.Status);
        Assert.Contains("left: `a` has no pin on attiny85 for `ce`", run.Results, StringComparison.Ordinal);
        Assert.Contains("2 left to you", run.Results, StringComparison.Ordinal);
        Assert.Contains("air: { channel: ", File.ReadAllText(folder.At("a.radio.yaml")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("cannot read `gone.radio.yaml`: there is no such file or folder", "gone.radio.yaml")]
    [InlineData("`radiolint fill` takes one manifest, and `.` is a folder; name a file", ".")]
    public void What_cannot_be_done(string note, string place)
    {
        using var folder = new TemporaryFolder();
        var run = CommandRun.Of(folder.Path, "fill", place);
        Assert.Equal((2, $"radiolint: {note}\n"), ((int)run.Status, run.Notes));
    }

    [Fact]
    public void A_file_that_cannot_be_written_stays()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Open);
        // The place of the file that is written aside is taken.
        Directory.CreateDirectory(folder.At("a.radio.yaml.new"));
        var run = CommandRun.Of(folder.Path, "fill", "a.radio.yaml");
        Assert.Equal(2, (int)run.Status);
        Assert.Contains("cannot write `a.radio.yaml`", run.Notes, StringComparison.Ordinal);
        Assert.Equal(Open, File.ReadAllText(folder.At("a.radio.yaml")));
    }
}
