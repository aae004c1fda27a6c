using RadioLint.Emit;
using RadioLint.Findings;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>What cannot be written in C is refused with a place, even where a manifest turned the rule down that says so first.</summary>
public sealed class Refusals
{
    private const string Field = """
        radiolint: 1
        network: field
        region: GB
        air: { channel: 74, rate: 1 Mbps }
        all-nodes: { wires: 5 cm, supply: { from: adapter, input: 5 V, capacitor: 10 uF ceramic } }
        nodes:
          hub: { board: atmega2560, pins: { ce: D48, csn: D49 } }
          post: { board: atmega328p, pins: { ce: D9, csn: D10 } }
        links:
          - { from: post, to: hub, payload: reading, every: 1 min }
        payloads:
          reading: { level: int16 0.1 degC in -1..1, state: uint8 }
        """;

    [Theory]
    [InlineData("channel: 74", "channel: open", "RL8305", "node `hub` cannot be written: `channel` has no value yet")]
    [InlineData("channel: 74, rate: 1 Mbps", "channel: open, rate: open", "RL8305", "node `hub` cannot be written: `channel`, `rate` have no value yet")]
    [InlineData("ce: D9,", "ce: D9, csn: D10 }, power: 3 dBm, x-pins: {", "RL8004", "`post`, whose registers cannot all be given, stands where a node with channel, rate, power and addresses that its radio can take is expected")]
    [InlineData("state: uint8", "state: bytes 31", "RL8004", "payload `reading` of 33 bytes stands where at most 32 bytes in one packet is expected")]
    [InlineData("state: uint8", "state: uint8 = 256", "RL8004", "`state` with the value 256 stands where a value that `uint8` holds in whole counts is expected")]
    [InlineData("state: uint8", "state: uint8 0.5 = 0.7", "RL8004", "`state` with the value 0.7 stands where a value that `uint8` holds in whole counts is expected")]
    [InlineData("state: uint8", "state: uint8 in 300..400", "RL8004", "`state` in 300 to 400 stands where a range with a count that `uint8` holds is expected")]
    [InlineData("state: uint8", "state: uint8 in 0.2..0.8", "RL8004", "`state` in 0.2 to 0.8 stands where a range with a count that `uint8` holds is expected")]
    [InlineData("state: uint8", "state: text 4 = 5", "RL8004", "a value, range or scale of `text 4` stands where one of a number is expected")]
    [InlineData("state: uint8", "state: bool", "RL8004", "payload `reading`, whose size is not known, stands where a payload of fields with a stated width is expected")]
    [InlineData("post", "radio-post", "RL8015", "`radio-post` is a reserved word of the emitted contract, which names all that it shares `radio_`")]
    // Names that meet only in C: of constants, of a choice and a range, of bits, of two nodes.
    [InlineData("state: uint8", "a: { uint8: [b-c] }, a-b: { uint8: [c] }", "RL8015", "`a-b` and `a` both become the identifier `HUB_READING_A_B_C`")]
    [InlineData("state: uint8", "gauge-low: { uint8: [x] }, gauge: { uint8: [low-x] }", "RL8015", "`gauge` and `gauge-low` both become the identifier `HUB_READING_GAUGE_LOW_X`")]
    [InlineData("state: uint8", "state: { bits: [tare, tare] }", "RL8015", "`tare` stands twice")]
    [InlineData("reading", "dynamic", "RL8015", "`dynamic` and `hub` both become the identifier `HUB_DYNAMIC_LENGTH`")]
    public void Says_what_cannot_be_written(string from, string to, string rule, string message)
    {
        var manifest = Field.Replace(from, to, StringComparison.Ordinal);
        Assert.NotEqual(Field, manifest);
        var network = Linter.Check(new SourceText("field.radio.yaml", manifest)).Network!;
        var set = EmitSet.Of(network, new());
        var finding = set.Findings[0];
        Assert.Equal((rule, Severity.Error), (finding.Rule.Id, finding.Severity));
        Assert.Equal(message, finding.Message);
        Assert.InRange(finding.Place.From.Line, 2, 12);
        Assert.Empty(set.Files);
        Assert.Null(set.Issue);
    }

    [Fact]
    public void Two_nodes_that_meet_in_one_name_meet_in_one_file()
    {
        var manifest = Field.Replace("  post:", "  post: { board: atmega328p, pins: { ce: D9, csn: D10 } }\n  p_ost:", StringComparison.Ordinal)
            .Replace("  post: { board", "  p-ost: { board", StringComparison.Ordinal).Replace("from: post", "from: p-ost", StringComparison.Ordinal);
        var network = Linter.Check(new SourceText("field.radio.yaml", manifest)).Network!;
        var findings = EmitSet.Of(network, new()).Findings;
        var finding = Assert.Single(findings, finding => finding.Rule.Id == "RL8204");
        Assert.EndsWith("both write `p_ost_radio.h`", finding.Message, StringComparison.Ordinal);
        Assert.Single(finding.Related);
        Assert.DoesNotContain(findings, other => other.Rule.Id == "RL8015");
    }

    [Fact]
    public void External_nodes_are_checked_and_never_written()
    {
        var manifest = Field.Replace("hub: {", "hub: { external: true,", StringComparison.Ordinal);
        var set = EmitSet.Of(Linter.Check(new SourceText("field.radio.yaml", manifest)).Network!, new());
        Assert.Equal(["radio_contract.h", "radio_link.h", "post_radio.h"], set.Files.Select(file => file.Name));
        Assert.Equal(["post"], set.Issue!.Now.Nodes.Select(node => node.Name));
    }
}
