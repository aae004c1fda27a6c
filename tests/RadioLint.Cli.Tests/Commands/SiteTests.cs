using RadioLint.Cli.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

/// <summary>Manifests that name one site and are checked in one run.</summary>
public sealed class SiteTests
{
    [Fact]
    public void Networks_too_near_are_told_of_in_both_files_each_with_the_other_as_its_other_place()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Network("cellar", "farm", 74));
        folder.Write("b.radio.yaml", Network("attic", "farm", 75));
        var lines = Lines(folder);
        Assert.Equal(
            [
                "a.radio.yaml:5:17: warning RL3207: channel 74 is 1 MHz from channel 75 of network `attic`, 1 MHz less than the 2 MHz that are needed",
                "b.radio.yaml:5:17: note: network `attic` is declared here",
                "b.radio.yaml:5:17: warning RL3207: channel 75 is 1 MHz from channel 74 of network `cellar`, 1 MHz less than the 2 MHz that are needed",
                "a.radio.yaml:5:17: note: network `cellar` is declared here",
            ],
            lines);
    }

    [Fact]
    public void One_channel_and_one_prefix_are_one_error_in_each_file()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Network("cellar", "farm", 74, ", address: 0xC2A7D19B33"));
        folder.Write("b.radio.yaml", Network("attic", "farm", 74, ", address: 0xC2A7D19B34"));
        Assert.Equal(
            [
                "a.radio.yaml:10:5: error RL4301: `0xC2A7D19B33` of `hall` and `0xC2A7D19B34` of network `attic` share all but the last byte on channel 74",
                "b.radio.yaml:10:5: note: `0xC2A7D19B34` belongs to network `attic`",
                "b.radio.yaml:10:5: error RL4301: `0xC2A7D19B34` of `hall` and `0xC2A7D19B33` of network `cellar` share all but the last byte on channel 74",
                "a.radio.yaml:10:5: note: `0xC2A7D19B33` belongs to network `cellar`",
            ],
            Lines(folder));
    }

    [Theory]
    [InlineData("farm", "yard", 75)]
    [InlineData("farm", null, 75)]
    [InlineData(null, null, 75)]
    [InlineData("farm", "farm", 76)]
    public void Other_sites_and_the_needed_distance_are_no_fault(string? one, string? other, int channel)
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Network("cellar", one, 74));
        folder.Write("b.radio.yaml", Network("attic", other, channel));
        Assert.Empty(Lines(folder));
    }

    [Fact]
    public void Alone_each_passes_and_an_allowance_for_the_other_is_not_idle()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", Network("cellar", "farm", 74) + "rules: { allow: [ { rule: RL3207, because: they send at other times } ] }\n");
        folder.Write("b.radio.yaml", Network("attic", "farm", 75));
        Assert.Empty(Lines(folder, "a.radio.yaml"));
        Assert.Empty(Lines(folder, "b.radio.yaml"));
        Assert.Equal(["b.radio.yaml:5:17: warning RL3207"], Lines(folder).Where(line => line.Contains("RL", StringComparison.Ordinal)).Select(line => string.Join(':', line.Split(':')[..4])));
        // Where it has nothing to allow although the others are there, it is.
        folder.Write("b.radio.yaml", Network("attic", "farm", 90));
        Assert.Contains(Lines(folder), line => line.Contains("warning RL8103", StringComparison.Ordinal));
    }

    [Fact]
    public void Of_three_each_knows_both_others()
    {
        using var folder = new TemporaryFolder();
        foreach (var name in new[] { "attic", "cellar", "stairs" })
            folder.Write($"{name}.radio.yaml", Network(name, "farm", 74));
        Assert.Equal(6, Lines(folder).Count(line => line.Contains("warning RL3207", StringComparison.Ordinal)));
    }

    private static string Network(string name, string? site, int channel, string link = "") =>
        $$"""
        radiolint: 1
        network: {{name}}
        region: GB
        {{(site is null ? "x-site: none" : $"site: {site}")}}
        air: { channel: {{channel}}, rate: 1 Mbps }
        nodes:
          hall: { board: esp32, {{Rest}} }
          far: { board: esp32, {{Rest}} }
        links:
          - { from: far, to: hall, payload: reading, every: 1 min{{link}} }
        payloads: { reading: { sequence: uint8 } }

        """;

    private const string Rest = "board-supply: { from: USB, output: 5 V, limit: 1 A }, supply: { from: regulator, part: AP2112K-3.3, input: 5 V, capacitor: 10 uF ceramic }, wifi: none, pins: { ce: GPIO27, csn: GPIO5 }";

    private static List<string> Lines(TemporaryFolder folder, params string[] files) =>
        [.. CommandRun.Of(folder.Path, ["check", .. files]).Results.Split('\n').Where(line => line.Contains(": warning ", StringComparison.Ordinal) || line.Contains(": error ", StringComparison.Ordinal) || line.Contains(": note: ", StringComparison.Ordinal))];
}
