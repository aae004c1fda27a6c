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

    private static Network Field(params string[] nodes)
    {
        var text = new StringBuilder("radiolint: 1\nnetwork: field\nregion: GB\nair: { channel: 74, rate: 1 Mbps }\nnodes:\n");
        foreach (var node in nodes)
            text.Append(System.Globalization.CultureInfo.InvariantCulture, $"  {node}: {{ board: atmega328p, supply: {{ from: adapter, input: 5 V }}, pins: {{ ce: D9, csn: D10 }} }}\n");
        return Linter.Check(new SourceText("field.radio.yaml", text.ToString())).Network!;
    }
}
