using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Manifest;

/// <summary>What reading reports: all of it at once, each cause once, and nothing that follows from it.</summary>
public sealed class ReaderTests
{
    private const string Head = "radiolint: 1\nnetwork: cellar\nregion: GB\nair: { channel: 74 }\n";

    [Fact]
    public void Several_faults_are_reported_in_one_run() => Assert.Equal(
        ["RL8005 3", "RL8006 4", "RL8003 4", "RL8013 6", "RL8011 7", "RL8015 8"],
        Said("radiolint: 1\nnetwork: cellar\nregion: UK\nair: { channel: 010, rat: 1 Mbps }\nnodes:\n  hall: { board: esp32, height: 3 }\n  shed: { board: esp23 }\n  float: { board: esp32 }\n"));

    [Theory]
    [InlineData("air: 74\nnodes: { hall: { board: esp32 } }", "RL8004 4")]
    [InlineData("air: { channel: high }\nnodes: { hall: { board: esp32 } }", "RL8004 4")]
    [InlineData("chanel: 74\nair: { channel: 74 }\nnodes: { hall: { bord: esp32 } }", "RL8003 4", "RL8003 6")]
    [InlineData("air: { channel: 74 }\nnodes: { hall: { board: [esp32] } }", "RL8004 5")]
    [InlineData("air: { channel: 74 }\nnodes: hall", "RL8004 5")]
    [InlineData("air: { channel: 74 }\nnods: { hall: { board: esp32 } }", "RL8003 5")]
    [InlineData("air: { channel: 74 }\nnodes: { hall: { board: esp32, pins: 5 } }", "RL8004 5")]
    [InlineData("air: { channel: 74 }\nnodes: { hall: { board: { based-on: esp23 } } }", "RL8011 5")]
    [InlineData("air: { channel: 74 }\nnodes: { hall: { board: esp32 } }\nlinks: [ { from: hall, to: shed, payload: none } ]", "RL8011 6", "RL8011 6")]
    public void One_cause_is_one_finding(string rest, params string[] expected) =>
        Assert.Equal(expected, Said($"radiolint: 1\nnetwork: cellar\nregion: GB\n{rest}\n"));

    [Fact]
    public void A_fault_in_all_nodes_or_in_a_group_is_said_once() => Assert.Equal(
        ["RL8013 5", "RL8011 7"],
        Said($"{Head}all-nodes: {{ height: 3, wifi: none }}\nnodes:\n  hive: {{ each: 1..200, board: esp23 }}\n"));

    [Fact]
    public void A_default_of_the_network_is_one_place_whatever_nodes_say_of_their_air() => Assert.Single(
        Check("radiolint: 1\nnetwork: a\nregion: GB\nnodes:\n  a: { board: esp32 }\n  b: { board: esp32, air: { crc: 1 byte } }\n  c: { board: esp32, air: { crc: none } }\n"),
        finding => finding.Rule.Id == "RL8305");

    [Fact]
    public void An_alias_is_read_like_what_it_repeats()
    {
        var written = Linter.Check(new SourceText("a.radio.yaml", Head + "nodes:\n  a: { board: esp32, height: 3 m }\n  b: { board: esp32, height: 3 m }\n"));
        var repeated = Linter.Check(new SourceText("a.radio.yaml", Head + "nodes:\n  a: &usual { board: esp32, height: 3 m }\n  b: *usual\n"));
        Assert.Equal(written.Findings.Select(finding => finding.Rule.Id + finding.Message), repeated.Findings.Select(finding => finding.Rule.Id + finding.Message));
        Assert.Equal(2, repeated.Network!.Nodes.Length);
    }

    [Fact]
    public void A_fault_in_what_an_alias_repeats_is_said_once() =>
        Assert.Equal(["RL8013 6"], Said(Head + "nodes:\n  a: &usual { board: esp32, height: 3 }\n  b: *usual\n"));

    [Theory]
    [InlineData("x-a: &a [*a]", "the alias `*a` stands inside what it repeats")]
    [InlineData("x-a: *b", "no `&b` stands before this alias")]
    [InlineData("x-a: &a { b: &b 1 }\nx-c: { *b : 1 }", "a key is a plain name, not a list, map or alias")]
    [InlineData("x-a: { [1]: 2 }", "a key is a plain name, not a list, map or alias")]
    [InlineData("x-a: !!int 5", "the tag `tag:yaml.org,2002:int` has no meaning in a manifest")]
    public void Aliases_and_keys_have_their_limits(string line, string message) =>
        Assert.Equal(message, Assert.Single(Check(Head + "nodes: { a: { board: esp32 } }\n" + line + "\n")).Message);

    [Fact]
    public void A_duplicate_key_names_the_first_and_keeps_it()
    {
        var result = Linter.Check(new SourceText("a.radio.yaml", "radiolint: 1\nnetwork: cellar\nregion: GB\nregion: DE\nnodes: { a: { board: esp32 } }\n"));
        var finding = Assert.Single(result.Findings, finding => finding.Rule.Id == "RL8002");
        Assert.Equal(3, Assert.Single(finding.Related).Place.From.Line);
        Assert.Equal("GB", result.Network!.RegionCode!.Value);
    }

    [Theory, InlineData("chanel", "channel"), InlineData("adress-width", "address-width"), InlineData("Rate", "rate"), InlineData("retyr", "retry")]
    public void An_unknown_key_gets_the_nearest(string written, string meant)
    {
        var finding = Check($"radiolint: 1\nnetwork: cellar\nregion: GB\nair: {{ {written}: 1 }}\nnodes: {{ a: {{ board: esp32 }} }}\n").Single(finding => finding.Rule.Id == "RL8003");
        Assert.StartsWith($"write `{meant}`", finding.Help, StringComparison.Ordinal);
        var edit = Assert.Single(Assert.Single(finding.Fixes).Edits);
        Assert.Equal((written, meant), (edit.Place.Text, edit.NewText));
    }

    [Theory]
    [InlineData("{\"radiolint\": 1,}", 16)]
    [InlineData("{'radiolint': 1}", 2)]
    [InlineData("{radiolint: 1}", 2)]
    [InlineData("{\"radiolint\": 01}", 15)]
    [InlineData("{\"radiolint\": +1}", 15)]
    [InlineData("{\"radiolint\": .5}", 15)]
    [InlineData("{\"radiolint\": NaN}", 15)]
    [InlineData("{\"radiolint\": True}", 15)]
    [InlineData("{\"a\": \"\\x41\"}", 7)]
    [InlineData("{\"a\": [1,]}", 9)]
    [InlineData("{\"a\": &b {}}", 7)]
    [InlineData("\"a\": 1", 1)]
    [InlineData("{\"a\": 1} {\"b\": 2}", 10)]
    [InlineData("{\"a\": 1 # note\n}", 9)]
    public void Json_is_held_to_rfc_8259(string text, int column)
    {
        var finding = Assert.Single(Linter.Check(new SourceText("a.radio.json", text)).Findings);
        Assert.Equal(("RL8001", new LinePosition(1, column)), (finding.Rule.Id, finding.Place.From));
    }

    [Theory, InlineData("0"), InlineData("-0.5e+3"), InlineData("1E10"), InlineData("true"), InlineData("null"), InlineData("\"\\u00e9\\n\\/\""), InlineData("[]"), InlineData("[[], {}]")]
    public void Json_that_is_json_is_read(string value) =>
        Assert.DoesNotContain(
            Linter.Check(new SourceText("a.radio.json", $"{{\"x-a\": {value}, \"radiolint\": 1, \"network\": \"a\", \"nodes\": {{}}}}")).Findings, finding => finding.Rule.Id == "RL8001");

    private static ImmutableArray<Finding> Check(string text) => Linter.Check(new SourceText("a.radio.yaml", text)).Findings;

    // Info is about facts that a short example leaves out.
    private static IEnumerable<string> Said(string text) => Check(text)
        .Where(finding => finding.Severity is not Severity.Info && finding.Rule.Id.StartsWith("RL8", StringComparison.Ordinal))
        .Select(finding => FormattableString.Invariant($"{finding.Rule.Id} {finding.Place.From.Line}"));
}
