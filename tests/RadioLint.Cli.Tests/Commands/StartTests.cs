using System.Text;
using RadioLint.Cli.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

/// <summary>`start --from-dump` makes a manifest of what radios hold.</summary>
public sealed class StartTests
{
    private const string Hall = """
        CONFIG = 0x0F
        EN_AA = 0x02
        EN_RXADDR = 0x06
        SETUP_AW = 0x03
        SETUP_RETR = 0x00
        RF_CH = 0x4A
        RF_SETUP = 0x26
        RX_ADDR_P0 = 0xE7E7E7E7E7
        RX_ADDR_P1 = 0xC2A7D19B33
        RX_ADDR_P2 = 0x41
        TX_ADDR = 0xE7E7E7E7E7
        RX_PW_P2 = 0x0C
        DYNPD = 0x02
        FEATURE = 0x04

        """;

    private const string Cellar = """
        CONFIG: 3E
        EN_AA: 01
        EN_RXADDR: 01
        SETUP_AW: 03
        SETUP_RETR: 5A
        RF_CH: 4A
        RF_SETUP: 24
        RX_ADDR_P0: 33 9B D1 A7 C2
        RX_ADDR_P1: C2 C2 C2 C2 C2
        TX_ADDR: 33 9B D1 A7 C2
        DYNPD: 01
        FEATURE: 04

        """;

    [Fact]
    public void What_it_makes()
    {
        using var folder = Bench();
        Snapshot.Matches("start-dump", CommandRun.Of(folder.Path, "start", "--from-dump", "hall.txt", "cellar.txt", "--network", "cellar", "--region", "GB", "--board", "esp32").ToString());
    }

    [Fact]
    public void It_reads_is_filled_and_readback_finds_it_as_planned()
    {
        using var folder = Bench();
        var made = CommandRun.Of(folder.Path, "start", "--from-dump", "hall.txt", "cellar.txt", "--region", "GB", "--board", "esp32", "--out", "a.radio.yaml");
        Assert.Equal((0, ""), ((int)made.Status, made.Results));
        Assert.DoesNotContain("RL80", CommandRun.Of(folder.Path, "check", "a.radio.yaml").Results, StringComparison.Ordinal);
        foreach (var node in new[] { "hall", "cellar" })
            Assert.StartsWith($"{node}: as planned", CommandRun.Of(folder.Path, "readback", "a.radio.yaml", $"{node}.txt", "--node", node).Results, StringComparison.Ordinal);
        Assert.Equal(0, (int)CommandRun.Of(folder.Path, "fill", "a.radio.yaml").Status);
        Assert.DoesNotContain("RL1001", CommandRun.Of(folder.Path, "check", "a.radio.yaml").Results, StringComparison.Ordinal);
    }

    [Fact]
    public void Standard_input_and_a_receiver_that_is_not_there()
    {
        using var folder = new TemporaryFolder();
        var run = CommandRun.Of(folder.Path, around => around with { Input = new MemoryStream(Encoding.ASCII.GetBytes(Cellar)) }, "start", "--from-dump", "-", "--board", "atmega328p");
        Assert.Equal(0, (int)run.Status);
        Assert.Contains("  unheard-1:  # not among the listings", run.Results, StringComparison.Ordinal);
        Assert.Contains("from: node, to: unheard-1, ", run.Results, StringComparison.Ordinal);
    }

    [Fact]
    public void No_file_is_replaced_unless_forced()
    {
        using var folder = Bench();
        folder.Write("a.radio.yaml", "mine");
        string[] args = ["start", "--from-dump", "hall.txt", "--board", "esp32", "--out", "a.radio.yaml"];
        var run = CommandRun.Of(folder.Path, args);
        Assert.Equal((2, "radiolint: `a.radio.yaml` is there already; name another file, or add `--force` to replace it\n"), ((int)run.Status, run.Notes));
        Assert.Equal("mine", File.ReadAllText(folder.At("a.radio.yaml")));
        Assert.Equal(0, (int)CommandRun.Of(folder.Path, [.. args, "--force"]).Status);
        Assert.StartsWith("# Made from register listings", File.ReadAllText(folder.At("a.radio.yaml")), StringComparison.Ordinal);
    }

    [Fact]
    public void Names_are_mended_and_the_later_listing_counts()
    {
        using var folder = Bench();
        folder.Write("Upper Hall.txt", Hall);
        folder.Write("switch.txt", Cellar);
        folder.Write("later/hall.txt", Hall.Replace("RF_CH = 0x4A", "RF_CH = 0x28", StringComparison.Ordinal));
        var run = CommandRun.Of(folder.Path, "start", "--board", "esp32", "--from-dump", "hall.txt", "Upper Hall.txt", "switch.txt", "later/hall.txt");
        Assert.Contains("radiolint: `Upper Hall` is called `upper-hall`", run.Notes, StringComparison.Ordinal);
        Assert.Contains("radiolint: `switch` is called `switch-node`", run.Notes, StringComparison.Ordinal);
        Assert.Contains("radiolint: `hall` is told twice; the later listing counts", run.Notes, StringComparison.Ordinal);
        Assert.Contains("air: { channel: 40", run.Results, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_to_start_from()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.txt", "hello\n");
        folder.Write("dead.txt", string.Concat(Enumerable.Range(0, 10).Select(i => $"0x0{i:X} = 0xFF\n")));
        foreach (var log in new[] { "a.txt", "dead.txt" })
        {
            var run = CommandRun.Of(folder.Path, "start", "--from-dump", log, "--board", "esp32");
            Assert.Equal((1, ""), ((int)run.Status, run.Results));
            Assert.Contains("there is nothing to start from", run.Notes, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("`radiolint start` makes a manifest from register listings, and none is given; add `--from-dump LOG...`; for a blank sheet begin with the smallest manifest of docs/manifest.md")]
    [InlineData("`--force` goes with `--out`", "--from-dump", "hall.txt", "--board", "esp32", "--force")]
    [InlineData("there is no board `esp31`; the nearest is `esp32`", "--from-dump", "hall.txt", "--board", "esp31")]
    [InlineData("`--network` takes a name of lower-case letters, digits and inner hyphens, not `My Net`; write `my-net`", "--from-dump", "hall.txt", "--board", "esp32", "--network", "My Net")]
    [InlineData("`--region` takes an ISO 3166 country code such as GB, not `Norway`", "--from-dump", "hall.txt", "--board", "esp32", "--region", "Norway")]
    [InlineData("cannot read `gone.txt`: there is no such file or folder", "--from-dump", "gone.txt", "--board", "esp32")]
    public void What_cannot_be_done(string note, params string[] args)
    {
        using var folder = Bench();
        var run = CommandRun.Of(folder.Path, ["start", .. args]);
        Assert.Equal((2, $"radiolint: {note}\n"), ((int)run.Status, run.Notes));
    }

    private static TemporaryFolder Bench()
    {
        var folder = new TemporaryFolder();
        folder.Write("hall.txt", Hall);
        folder.Write("cellar.txt", Cellar);
        return folder;
    }
}
