using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Manifest;

/// <summary>Writing out the defaults changes nothing that is said of a manifest.</summary>
public sealed class EffectiveManifestTests
{
    // A text that does not parse has no tree, and a tree keeps one of two equal keys.
    private static readonly string[] AboutTheText = ["RL8001", "RL8002"];

    public static TheoryData<string> Files() => [.. Fixtures.All()];

    public static TheoryData<string> Examples() => [.. Fixtures.Examples()];

    public static TheoryData<int> Blocks() => [.. Enumerable.Range(0, Reference.Blocks.Count)];

    [Theory, MemberData(nameof(Files))]
    public void Fixtures_are_judged_the_same(string file) =>
        Compare(file, File.ReadAllText(Path.Combine(Fixtures.Rules, file)), Fixtures.Options(file[..6], file));

    [Theory, MemberData(nameof(Examples))]
    public void Examples_are_judged_the_same(string file) => Compare(file, File.ReadAllText(Path.Combine(Fixtures.Root, file)), new() { Today = new(2026, 6, 1) });

    [Theory, MemberData(nameof(Blocks))]
    public void Blocks_of_the_reference_are_judged_the_same(int number) => Compare("a.radio.yaml", Reference.Blocks[number], new() { Today = new(2026, 6, 1) });

    [Fact]
    public void Every_default_is_written_out() => Assert.Equal(
        """
        radiolint: 1
        network: cellar
        nodes:
          hall:
            board: esp32
            supply:
              from: adapter
              input:
                from: USB
                capacitor: none
                filter: none
              capacitor: none
              filter: none
            sleep:
              wakes: every 10 min
              listens: never
            radio:
              antenna: 2 dBi
              part: nRF24L01+
            spi:
              clock: 2 MHz
              software: false
              level-shifter: none
            power: 0 dBm
            test: none
            external: false
            pins:
              sck: GPIO18
              mosi: GPIO23
              miso: GPIO19
          hut:
            board: atmega328p
            air:
              retry:
                delay: 500 us
                limit: 15
            pins:
              ce: D9
              miso: D12
              sck: PB5
              mosi: PB3
            spi:
              software: false
              level-shifter: none
            radio:
              part: nRF24L01+
            power: 0 dBm
            test: none
            external: false
        links:
          - from: hut
            to: hall
            payload: reading
            with: own packet
            broadcast: false
            must-arrive: false
        payloads:
          reading:
            fields:
              count: uint8
            layout: packed
        air:
          channel: open
          rate: 1 Mbps
          address-width: 5
          crc: 2 bytes
          acknowledge: true
          payload-length: dynamic
          retry:
            delay: open
            limit: 15

        """,
        Effective("""
            # comments go
            radiolint: 1
            network: cellar
            nodes:
              hall: { board: esp32, supply: { from: adapter, input: { from: USB } }, sleep: { wakes: every 10 min }, radio: { antenna: 2 dBi }, spi: { clock: 2 MHz } }
              hut: { board: atmega328p, air: { retry: { delay: 500 us } }, pins: { ce: D9, miso: D12 } }
            links: [ { from: hut, to: hall, payload: reading } ]
            payloads: { reading: { fields: { count: uint8 } } }
            """));

    [Fact]
    public void What_is_written_comes_first_and_in_its_order() => Assert.StartsWith(
        "network: a\nx-note:\n  b: 1\n  a: 2\nradiolint: 1\nair:\n  crc: none\n  channel: 5\n  rate: 1 Mbps\n",
        Effective("network: a\nx-note: { b: 1, a: 2 }\nradiolint: 1\nair: { crc: none, channel: 5 }\nnodes: { h: { board: esp32 } }\n"), StringComparison.Ordinal);

    [Fact]
    public void A_key_of_all_nodes_is_no_default_of_a_node()
    {
        var text = Effective("radiolint: 1\nnetwork: a\nall-nodes: { power: -6 dBm, radio: { antenna: 2 dBi } }\nnodes: { h: { board: esp32 }, k: { board: esp32, power: -12 dBm } }\n");
        Assert.Equal(1, Count(text, "power: -6 dBm"));
        Assert.Equal(1, Count(text, "power: -12 dBm"));
        Assert.Equal(1, Count(text, "part: nRF24L01+"));
        Assert.DoesNotContain("power: 0 dBm", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Pins_of_all_nodes_are_completed_where_the_boards_agree()
    {
        Assert.Equal(1, Count(Effective("radiolint: 1\nnetwork: a\nall-nodes: { pins: { ce: D9 } }\nnodes: { h: { board: atmega328p }, k: { board: atmega328p } }\n"), "sck: PB5"));
        Assert.DoesNotContain("sck:", Effective("radiolint: 1\nnetwork: a\nall-nodes: { pins: { ce: D9 } }\nnodes: { h: { board: atmega328p }, k: { board: esp32 } }\n"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_member_with_pins_of_its_own_is_completed_by_itself()
    {
        var text = Effective("radiolint: 1\nnetwork: a\nnodes: { h: { board: atmega328p, pins: { ce: D9 }, each: { a: {}, b: { board: esp32, pins: { ce: GPIO27 } } } } }\n");
        Assert.Equal((1, 1), (Count(text, "sck: PB5"), Count(text, "sck: GPIO18")));
    }

    [Theory]
    [InlineData("\"NO\"", "\"NO\""), InlineData("\"GB\"", "GB"), InlineData("NO", "NO"), InlineData("\"010\"", "\"010\""), InlineData("\"5\"", "\"5\""), InlineData("'1e3'", "\"1e3\"")]
    [InlineData("\"\"", "\"\""), InlineData("\"true\"", "\"true\""), InlineData("\"0x4A\"", "\"0x4A\""), InlineData("\" a\"", "\" a\""), InlineData("\"a: b\"", "\"a: b\"")]
    [InlineData("\"a #b\"", "\"a #b\""), InlineData("\"a#b\"", "a#b"), InlineData("\"- a\"", "\"- a\""), InlineData("\"-6 dBm\"", "-6 dBm"), InlineData("\"a\\nb\"", "\"a\\x0Ab\"")]
    [InlineData("\"@a\"", "\"@a\""), InlineData("\"a:\"", "\"a:\""), InlineData("\"say \\\"b\\\"\"", "say \"b\""), InlineData("'{a}'", "\"{a}\""), InlineData("\"é\"", "é")]
    public void Quotes_stand_only_where_they_are_needed(string written, string expected) =>
        Assert.Contains($"\nx-note: {expected}\n", Effective($"radiolint: 1\nx-note: {written}\nnetwork: a\nnodes: {{ h: {{ board: esp32 }} }}\n"), StringComparison.Ordinal);

    [Fact]
    public void A_text_that_does_not_parse_has_none()
    {
        Assert.Null(EffectiveManifest.Of(new("a.radio.yaml", "nodes: {")));
        Assert.Null(EffectiveManifest.Of(new("a.radio.yaml", "")));
        Assert.Null(EffectiveManifest.Of(new("a.radio.yaml", "network: \0")));
    }

    [Fact]
    public void There_are_files_to_compare() => Assert.True(Files().Count > 200);

    private static string Effective(string text) => EffectiveManifest.Of(new("a.radio.yaml", text)) ?? throw new InvalidOperationException("the text does not parse");

    private static int Count(string text, string line) => text.Split('\n').Count(each => each.Trim() == line);

    private static void Compare(string file, string text, CheckOptions options)
    {
        var findings = Linter.Check(new SourceText(file, text), options).Findings;
        if (EffectiveManifest.Of(new(file, text), options) is not { } effective)
        {
            Assert.Contains(findings, finding => finding.Rule.Id is "RL8001" or "RL8012" or "RL8014");
            return;
        }
        Assert.Equal(effective, EffectiveManifest.Of(new("effective.radio.yaml", effective), options));
        if (findings.Any(finding => AboutTheText.Contains(finding.Rule.Id)))
            return;
        Assert.Equal(Rewriting.Said(findings), Rewriting.Said(Linter.Check(new SourceText("effective.radio.yaml", effective), options).Findings));
    }
}
