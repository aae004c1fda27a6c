using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Rules;

/// <summary>What a manifest alone does not bring about: other networks of its site, and what the folder's own file locks.</summary>
public sealed class BesideOthersTests
{
    [Fact]
    public void Networks_of_one_site_with_one_prefix()
    {
        var finding = Assert.Single(Beside(Other("74", "0xC2A7D19B41")), one => one.Rule.Id == "RL4301");
        Assert.Equal((Severity.Error, "- from: far"), (finding.Severity, LineOf(finding.Place)));
        Assert.Equal("`0xC2A7D19B33` of `hub` and `0xC2A7D19B41` of network `orchard` share all but the last byte on channel 74", finding.Message);
        var there = Assert.Single(finding.Related);
        Assert.Equal(("orchard.radio.yaml", "`0xC2A7D19B41` belongs to network `orchard`"), (there.Place.Source.Name, there.Message));
        Assert.Equal(["hub"], finding.NodeNames);
        Assert.Equal("0xC8B92EC033", Assert.Single(Assert.Single(finding.Fixes).Edits).NewText);
    }

    [Fact]
    public void Networks_of_one_site_with_one_address() => Assert.Equal(
        "the address `0xC2A7D19B33` of `hub` is also one of network `orchard` on channel 74",
        Assert.Single(Beside(Other("74", "0xC2A7D19B33")), one => one.Rule.Id == "RL4301").Message);

    // 2 MHz are needed at 1 Mbps (nRF24L01+ Product Specification 1.0, Table 9).
    [Theory, InlineData("74", true), InlineData("75", true), InlineData("76", false)]
    public void Networks_of_one_site_on_near_channels(string channel, bool isTold)
    {
        var found = Beside(Other(channel, "0x4FA7D19B41")).Where(one => one.Rule.Id == "RL3207").ToList();
        Assert.Equal(isTold, found.Exists(one => one.Severity is Severity.Warning));
    }

    // Locked by the manifest, by the folder, or by neither.
    [Theory]
    [InlineData("locked: [RL3004]", "", "RL8105"), InlineData("", "locked: [RL3004]", "RL8105"), InlineData("locked: [RL3004]", "locked: [RL3004]", "RL8105")]
    [InlineData("locked: [RL1001]", "locked: [RL1002]", ""), InlineData("locked: [RL1001]", "locked: [RL3004]", "RL8105")]
    public void Locks_of_manifest_and_folder(string own, string folder, string expected)
    {
        var text = $$"""
            radiolint: 1
            network: cellar
            air: { channel: 74, rate: 1 Mbps }
            nodes: { hall: { board: atmega328p, pins: { ce: D9, csn: D10 } } }
            rules: { {{string.Join(", ", new[] { "RL3004: silent", own }.Where(one => one.Length > 0))}} }

            """;
        var rules = folder.Length == 0 ? RuleSettings.None : Read($"radiolint: 1\nnetwork: folder\nair: {{ channel: 74 }}\nnodes: {{ hall: {{ board: atmega328p }} }}\nrules: {{ {folder} }}\n").Rules;
        var found = Linter.Check(new SourceText("locks.radio.yaml", text), new CheckOptions { FolderRules = rules }).Findings.Where(one => one.Rule.Id == "RL8105").ToList();
        Assert.Equal(expected, string.Join(" ", found.Select(one => one.Rule.Id)));
        Assert.All(found, one => Assert.Equal("RL3004 is locked, so it cannot be lowered", one.Message));
    }

    private static ImmutableArray<Finding> Beside(string other) => Linter.Check(
        new SourceText("cellar.radio.yaml", Network("cellar", "74", "0xC2A7D19B33")),
        new CheckOptions { AtSite = [SiteNetwork.Of(Read(other, "orchard.radio.yaml"))!] }).Findings;

    private static string Other(string channel, string address) => Network("orchard", channel, address);

    private static string Network(string name, string channel, string address) => $$"""
        radiolint: 1
        network: {{name}}
        region: GB
        site: farm
        air: { channel: {{channel}}, rate: 1 Mbps }
        nodes:
          hub: { board: atmega328p, pins: { ce: D9, csn: D10 } }
          far: { board: atmega328p, pins: { ce: D9, csn: D10 } }
        links:
          - from: far
            to: hub
            payload: reading
            every: 1 min
            address: {{address}}
        payloads: { reading: { count: uint16, sequence: uint8 } }

        """;

    private static Network Read(string text, string name = "cellar.radio.yaml") => Linter.Check(new SourceText(name, text)).Network!;

    private static string LineOf(Place place) => place.Source.Line(place.From.Line).Trim();
}
