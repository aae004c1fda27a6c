using RadioLint.Model;
using RadioLint.Tests.Support;
using RadioLint.Text;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Binding;

/// <summary>How nodes come from their entries: layers, groups, names.</summary>
public sealed class NodeTests
{
    private const string Head = "radiolint: 1\nnetwork: cellar\nregion: GB\nair: { channel: 74, rate: 1 Mbps }\n";

    [Fact]
    public void A_nodes_own_key_replaces_the_whole_key_of_all_nodes()
    {
        var node = Read("""
            all-nodes: { board: atmega328p, power: -12 dBm, radio: { part: nRF24L01+, front-end: RFX2401C } }
            nodes:
              hall: { pins: { ce: D9, csn: D10 }, radio: { part: Si24R1 } }
            """).Nodes[0];
        Assert.Equal(new PowerLevel(-1200), node.Power!.Value);
        Assert.Equal("Si24R1", node.Radio.Part!.Value);
        Assert.Null(node.Radio.FrontEnd);
    }

    [Fact]
    public void A_nodes_air_replaces_key_by_key_and_keeps_the_networks_rest()
    {
        var air = Read("nodes:\n  hall: { board: atmega328p, air: { rate: 250 kbps } }\n").Nodes[0].Air;
        Assert.Equal((DataRate.Kbps250, 74), (air.ChosenRate, air.ChosenChannel));
    }

    [Fact]
    public void Each_by_range_by_list_and_by_differences()
    {
        var nodes = Read("""
            nodes:
              lance: { each: 1..3, board: atmega328p }
              gate: { each: [north, south], board: atmega328p }
              bed:
                each: { rose: { power: -18 dBm }, bean: }
                board: atmega328p
                power: -6 dBm
            """).Nodes;
        Assert.Equal(["lance-1", "lance-2", "lance-3", "gate-north", "gate-south", "bed-rose", "bed-bean"], nodes.Select(node => node.Name));
        Assert.Equal([-1800, -600], nodes.TakeLast(2).Select(node => node.Power!.Value.Centi));
        // Members that differ in nothing but their names are told once; one that differs speaks for itself.
        Assert.Equal(["lance", "gate", "bed-rose", "bed"], nodes.Where(node => node.SpeaksForGroup).Select(node => node.Label));
    }

    [Fact]
    public void Links_name_nodes_groups_and_parts_of_groups()
    {
        var network = Read("""
            nodes:
              hub: { board: esp32 }
              lance: { each: 1..30, board: atmega328p }
            links:
              - { from: lance, to: hub, payload: reading }
              - { from: lance-7, to: hub, payload: reading }
              - { from: lance-11..20, to: hub, payload: reading }
            payloads: { reading: { count: uint8 } }
            """);
        Assert.Equal([30, 1, 10], network.Links.Select(link => link.From.Length));
        Assert.Equal(["lance-11", "lance-20"], new[] { network.Links[2].From[0].Name, network.Links[2].From[^1].Name });
    }

    [Theory]
    [InlineData("lance-21..40")]
    [InlineData("lance-31")]
    [InlineData("lanse")]
    public void A_selector_that_fits_nothing_is_a_finding(string selector)
    {
        var findings = Findings($$"""
            nodes:
              hub: { board: esp32 }
              lance: { each: 1..30, board: atmega328p }
            links: [ { from: {{selector}}, to: hub, payload: reading } ]
            payloads: { reading: { count: uint8 } }
            """);
        Assert.Contains(findings, id => id == "RL8011");
    }

    [Fact]
    public void Only_one_side_of_a_link_may_be_several() => Assert.Contains("RL8004", Findings("""
        nodes:
          a: { each: 1..2, board: esp32 }
          b: { each: 1..2, board: esp32 }
        links: [ { from: a, to: b, payload: reading } ]
        payloads: { reading: { count: uint8 } }
        """));

    [Fact]
    public void Names_that_become_one_identifier_are_a_finding_at_both_places()
    {
        var result = Check("nodes:\n  hive: { each: 1..2, board: esp32 }\n  hive-1: { board: esp32 }\n");
        var clash = Assert.Single(result.Findings, finding => finding.Rule.Id == "RL8015");
        Assert.Contains("`hive-1` stands twice", clash.Message, StringComparison.Ordinal);
        Assert.Single(clash.Related);
    }

    private static Network Read(string text) => Check(text).Network ?? throw new InvalidOperationException("no network");

    private static IEnumerable<string> Findings(string text) => Check(text).Findings.Select(finding => finding.Rule.Id);

    private static CheckResult Check(string text) => Linter.Check(new SourceText("nodes.radio.yaml", Head + text));
}
