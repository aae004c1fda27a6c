using RadioLint.Model;
using RadioLint.Planning;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Planning;

/// <summary>What is written where, to the byte.</summary>
public sealed class ManifestWriterTests
{
    private const string Nodes = "nodes: { hub: { board: esp32 } }\n";

    [Theory]
    // In the place of `open`, its quotes and its anchor kept.
    [InlineData("air: { channel: open }\n", "air: { channel: 76 }\n")]
    [InlineData("air:\n  channel: open  # to be chosen\n  rate: 1 Mbps\n", "air:\n  channel: 76  # to be chosen\n  rate: 1 Mbps\n")]
    [InlineData("air: { channel: \"open\" }\n", "air: { channel: \"76\" }\n")]
    [InlineData("air: { channel: &ours open }\n", "air: { channel: &ours 76 }\n")]
    // A further key of a map in flow style, where the reference has it.
    [InlineData("air: { rate: 1 Mbps }\n", "air: { channel: 76, rate: 1 Mbps }\n")]
    [InlineData("air: {}\n", "air: { channel: 76 }\n")]
    [InlineData("air: { x-note: ours }\n", "air: { channel: 76, x-note: ours }\n")]
    [InlineData("air: {\n  rate: 1 Mbps,  # slow\n  crc: 1 byte\n}\n", "air: {\n  channel: 76,\n  rate: 1 Mbps,  # slow\n  crc: 1 byte\n}\n")]
    // A further line of a map in block style.
    [InlineData("air:\n    rate: 1 Mbps\n", "air:\n    channel: 76\n    rate: 1 Mbps\n")]
    // The map itself.
    [InlineData("", "air: { channel: 76 }\n")]
    public void The_channel(string before, string after) => Writes(
        $"radiolint: 1\nnetwork: x\n{before}{Nodes}", $"radiolint: 1\nnetwork: x\n{after}{Nodes}", _ => [new(null, "air.channel", "76", "")]);

    [Theory]
    [InlineData("air: { channel: 4 }\n", "air: { channel: 4, rate: 250 kbps }\n")]
    [InlineData("air:\n  channel: 4  # ours\n\n", "air:\n  channel: 4  # ours\n  rate: 250 kbps\n\n")]
    [InlineData("air:\r\n  channel: 4\r\n", "air:\r\n  channel: 4\r\n  rate: 250 kbps\r\n")]
    [InlineData("air: {\n  channel: 4  # ours\n}\n", "air: {\n  channel: 4,  # ours\n  rate: 250 kbps\n}\n")]
    [InlineData("air: {\n  channel: 4,  # ours\n}\n", "air: {\n  channel: 4,  # ours\n  rate: 250 kbps,\n}\n")]
    [InlineData("air: {\n  channel: 4 }\n", "air: {\n  channel: 4,\n  rate: 250 kbps }\n")]
    [InlineData("air: &air { channel: 4 }\n", "air: &air { channel: 4, rate: 250 kbps }\n")]
    [InlineData("x-ours: &ours 4\nair: { channel: *ours }\n", "x-ours: &ours 4\nair: { channel: *ours, rate: 250 kbps }\n")]
    [InlineData("x-ours: &ours 4\nair:\n  channel: *ours  # there\n", "x-ours: &ours 4\nair:\n  channel: *ours  # there\n  rate: 250 kbps\n")]
    [InlineData("air:\n  channel: >\n    4\n", "air:\n  channel: >\n    4\n  rate: 250 kbps\n")]
    public void The_rate(string before, string after) => Writes(
        $"radiolint: 1\nnetwork: x\n{before}{Nodes}", $"radiolint: 1\nnetwork: x\n{after}{Nodes}", _ => [new(null, "air.rate", "250 kbps", "")]);

    [Fact]
    public void JSON_stays_JSON() => Writes(
        "{\"radiolint\": 1, \"network\": \"x\", \"air\": {\"channel\": \"open\"}, \"nodes\": {\"hub\": {\"board\": \"esp32\"}}}",
        "{\"radiolint\": 1, \"network\": \"x\", \"air\": {\"channel\": 76, \"rate\": \"250 kbps\", \"retry\": { \"delay\": [\"500 us\", \"750 us\"] }}, \"nodes\": {\"hub\": {\"board\": \"esp32\", \"pins\": { \"ce\": \"GPIO27\" }}}}",
        network => [new(null, "air.channel", "76", ""), new(null, "air.rate", "250 kbps", ""), new(null, "air.retry.delay", "[500 us, 750 us]", ""), new(network.Nodes[0], "pins.ce", "GPIO27", "")]);

    [Fact]
    public void A_last_line_without_an_end_keeps_none() => Writes(
        "radiolint: 1\nnetwork: x\nnodes:\n  hub:\n    board: esp32", "radiolint: 1\nnetwork: x\nnodes:\n  hub:\n    board: esp32\n    pins: { ce: GPIO27, csn: GPIO5 }\n    power: -6 dBm",
        network => [new(network.Nodes[0], "power", "-6 dBm", ""), new(network.Nodes[0], "pins.csn", "GPIO5", ""), new(network.Nodes[0], "pins.ce", "GPIO27", "")]);

    [Fact]
    public void A_group_is_written_once_and_a_member_with_its_own_keys_by_itself() => Writes(
        """
        radiolint: 1
        network: x
        nodes:
          hub: { board: esp32 }
          lance:
            each: { north: , south: { board: stm32f103c8 } }
            board: atmega328p
            pins: { ce: D9 }

        """,
        """
        radiolint: 1
        network: x
        nodes:
          hub: { board: esp32 }
          lance:
            each: { north: , south: { board: stm32f103c8, pins: { ce: D9, csn: PA4 } } }
            board: atmega328p
            pins: { ce: D9, csn: D10 }

        """,
        network => [new(Named(network, "lance-north"), "pins.csn", "D10", ""), new(Named(network, "lance-south"), "pins.csn", "PA4", "")]);

    [Fact]
    public void What_all_nodes_share_is_written_there_when_they_agree() => Writes(
        "radiolint: 1\nnetwork: x\nall-nodes: { pins: { ce: D9 }, board: atmega328p }\nnodes: { a: {}, b: {} }\n",
        "radiolint: 1\nnetwork: x\nall-nodes: { pins: { ce: D9, csn: D10 }, board: atmega328p }\nnodes: { a: {}, b: {} }\n",
        network => [new(network.Nodes[0], "pins.csn", "D10", ""), new(network.Nodes[1], "pins.csn", "D10", "")]);

    [Fact]
    public void What_all_nodes_share_is_repeated_where_they_differ() => Writes(
        "radiolint: 1\nnetwork: x\nall-nodes: { pins: { ce: D9 }, board: atmega328p }\nnodes: { a: {}, b: {} }\n",
        "radiolint: 1\nnetwork: x\nall-nodes: { pins: { ce: D9 }, board: atmega328p }\nnodes: { a: { pins: { ce: D9, csn: D10 } }, b: { pins: { ce: D9, csn: D8 } } }\n",
        network => [new(network.Nodes[0], "pins.csn", "D10", ""), new(network.Nodes[1], "pins.csn", "D8", "")]);

    [Fact]
    public void A_retry_of_its_own_keeps_the_limit_of_the_network() => Writes(
        "radiolint: 1\nnetwork: x\nair: { retry: { limit: 3 } }\nnodes: { a: { board: esp32 } }\n",
        "radiolint: 1\nnetwork: x\nair: { retry: { limit: 3 } }\nnodes: { a: { board: esp32, retry: { delay: 750 us, limit: 3 } } }\n",
        network => [new(network.Nodes[0], "retry.delay", "750 us", "")]);

    [Fact]
    public void Links_in_a_list_and_a_link_alone() => Writes(
        "radiolint: 1\nnetwork: x\nnodes: { a: { board: esp32 }, b: { board: esp32 } }\nlinks:\n  - from: a\n    to: b\n    payload: p\n    every: 10 s  # often\n    # and so on\npayloads: { p: { n: uint8 } }\n",
        "radiolint: 1\nnetwork: x\nnodes: { a: { board: esp32 }, b: { board: esp32 } }\nlinks:\n  - from: a\n    to: b\n    payload: p\n    every: 10 s  # often\n    jitter: 10 %\n    offset: 3 s\n    # and so on\npayloads: { p: { n: uint8 } }\n",
        network => [new(network.Links[0], "offset", "3 s", ""), new(network.Links[0], "jitter", "10 %", "")]);

    [Fact]
    public void What_aliases_repeat_and_what_stands_elsewhere_is_left()
    {
        var text = "radiolint: 1\nnetwork: x\ninclude: shared.yaml\nair:\n  channel: &c open\n  x-same: *c\nnodes:\n  a: &one\n    board: esp32\n  b: *one\n";
        var network = Read(text, _ => "payloads: { p: { n: uint8 } }"u8.ToArray());
        var written = ManifestWriter.Write(network,
        [
            new(null, "air.channel", "76", ""), new(network.Nodes[0], "power", "0 dBm", ""), new(network.Payloads[0], "layout", "packed", ""), new(null, "setting", "open", ""),
        ]);
        Assert.Equal(text.Replace("include", "setting: open\ninclude", StringComparison.Ordinal), written.Text);
        Assert.Equal(["air.channel", "power", "layout"], written.Left.Select(one => one.Choice.Key));
        Assert.Contains("shared.yaml", written.Left[2].Why, StringComparison.Ordinal);
        Assert.All(written.Left.Take(2), one => Assert.Contains("aliases repeat", one.Why, StringComparison.Ordinal));
    }

    private static Node Named(Network network, string name) => network.Nodes.Single(node => node.Name == name);

    private static void Writes(string before, string after, Func<Network, IEnumerable<Choice>> choices)
    {
        var network = Read(before, _ => null);
        var written = ManifestWriter.Write(network, choices(network));
        Assert.Equal(after, written.Text);
        Assert.Empty(written.Left);
    }

    private static Network Read(string text, Func<string, byte[]?> include) => 
        Linter.Check(new SourceText("x.radio.yaml", text), new CheckOptions { Include = include }) is var result && result.Network is { } network ? network
            : throw new InvalidOperationException(string.Join("\n", result.Findings.Select(finding => finding.Message)));
}
