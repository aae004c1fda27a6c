using System.Text;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Radio;

/// <summary>Numbers of nodes that the manifest leaves open.</summary>
public sealed class NodeNumberTests
{
    // FNV-1a over `field`, `probe` and the fixed words is 0x9A19749A225DF866, worked out apart from this program; NameHashTests hold the function to its published values.
    [Fact]
    public void A_lone_node_has_the_number_that_its_name_gives()
    {
        var network = Field("probe");
        Assert.Equal(29, NodeNumbers.Of(network)[Assert.Single(network.Nodes)]);
    }

    [Fact]
    public void As_many_nodes_as_there_are_numbers_have_one_each()
    {
        var network = Field([.. Enumerable.Range(1, 256).Select(i => $"probe-{i}")]);
        var numbers = NodeNumbers.Of(network);
        Assert.Equal(Enumerable.Range(1, 254), numbers.Values.Order());
        // In the order of names, so that the last two go without.
        Assert.DoesNotContain(network.Nodes.Single(node => node.Name == "probe-255"), numbers.Keys);
        Assert.DoesNotContain(network.Nodes.Single(node => node.Name == "probe-256"), numbers.Keys);
    }

    [Fact]
    public void Stated_numbers_are_kept_and_others_step_aside()
    {
        // What `probe` has alone, and the next: both stated by others here.
        var alone = Field("probe");
        var wanted = NodeNumbers.Of(alone)[alone.Nodes[0]];
        var network = Field("least: 1", "most: 254", $"first: {wanted}", $"second: {wanted % 254 + 1}", "probe");
        var numbers = NodeNumbers.Of(network).ToDictionary(pair => pair.Key.Name, pair => pair.Value);
        Assert.Equal([1, 254, wanted, wanted % 254 + 1], new[] { "least", "most", "first", "second" }.Select(name => numbers[name]));
        Assert.Equal((wanted + 1) % 254 + 1, numbers["probe"]);
    }

    // 0 and 255 are what empty memory holds: whoever states one has no number, and nobody else is moved by it.
    [Theory, InlineData(0), InlineData(255)]
    public void A_number_out_of_reach_is_none(int stated)
    {
        var network = Field($"probe: {stated}");
        Assert.Empty(NodeNumbers.Of(network));
    }

    // The lowest follows the highest: 254 is in use, so the next is 1.
    [Fact]
    public void After_the_highest_comes_the_lowest()
    {
        var name = Enumerable.Range(1, 10_000).Select(i => $"probe-{i}").First(name => Field(name) is var lone && NodeNumbers.Of(lone)[lone.Nodes[0]] == 254);
        var network = Field("most: 254", name);
        Assert.Equal(1, NodeNumbers.Of(network)[network.Nodes.Single(node => node.Name == name)]);
    }

    // A node's name, with its number behind a colon where it states one.
    private static Network Field(params string[] nodes)
    {
        var text = new StringBuilder("radiolint: 1\nnetwork: field\nregion: GB\nair: { channel: 74, rate: 1 Mbps }\nnodes:\n");
        foreach (var node in nodes.Select(node => node.Split(": ")))
            text.Append(System.Globalization.CultureInfo.InvariantCulture, $"  {node[0]}: {{ {(node.Length > 1 ? $"number: {node[1]}, " : "")}board: atmega328p, supply: {{ from: adapter, input: 5 V }}, pins: {{ ce: D9, csn: D10 }} }}\n");
        return Linter.Check(new SourceText("field.radio.yaml", text.ToString())).Network!;
    }
}
