using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Wiring;

/// <summary>What the pin rules offer: the edit in the style of the file, and no new fault of the pins by it.</summary>
public sealed class PinFixTests
{
    private const string Block = "radiolint: 1\nnetwork: cellar\nregion: GB\nair: { channel: 74, rate: 1 Mbps }\nnodes:\n  hall:\n    wifi: none\n";
    private const string Json = """{ "radiolint": 1, "network": "cellar", "region": "GB", "air": { "channel": 74, "rate": "1 Mbps" }, "nodes": { "hall": { """;

    [Theory]
    [InlineData("RL1001", "    board: atmega328p # old\n", "    board: atmega328p # old\n    pins: { ce: D9, csn: D10 }\n")]
    [InlineData("RL1001", "    board: atmega328p\n    pins:\n      irq: D2 # brown\n", "    board: atmega328p\n    pins:\n      irq: D2 # brown\n      ce: D9\n      csn: D10\n")]
    [InlineData("RL1001", "    board: atmega328p\n    pins: { ce: D9 }\n", "    board: atmega328p\n    pins: { ce: D9, csn: D10 }\n")]
    [InlineData("RL1001", "    board: atmega328p\n    pins:\n      irq:\n        pin: D2\n      ce: D9\n", "    board: atmega328p\n    pins:\n      irq:\n        pin: D2\n      ce: D9\n      csn: D10\n")]
    [InlineData("RL1002", "    board: atmega328p\n    pins: { ce: D10, csn: D10 }\n", "    board: atmega328p\n    pins: { ce: D10, csn: D8 }\n")]
    [InlineData("RL1002", "    board: atmega328p\n    pins: { ce: D9, csn: D10 }\n    also-uses: { D13: lamp }\n", "    board: atmega328p\n    pins: { ce: D9, csn: D10 }\n    also-uses: { D8: lamp }\n")]
    [InlineData("RL1013", "    board: stm32f103\n    pins: { ce: PB0, csn: PA15 }\n", "    board: stm32f103\n    pins: { ce: PB0, csn: A4 }\n")]
    [InlineData(
        "RL1013", "    board: stm32f103\n    pins: { ce: PB0, csn: PA4, sck: PB3, mosi: PB5, miso: PB4 }\n",
        "    board: stm32f103\n    pins: { ce: PB0, csn: PA4, sck: A5, mosi: A7, miso: A6 }\n")]
    [InlineData("RL1005", "    board: esp32\n    pins: { ce: GPIO34, csn: GPIO5 }\n", "    board: esp32\n    pins: { ce: GPIO27, csn: GPIO5 }\n")]
    [InlineData(
        "RL1006", "    board: atmega2560\n    pins: { ce: D48, csn: D53, sck: D13, mosi: D11, miso: D12 }\n",
        "    board: atmega2560\n    pins: { ce: D48, csn: D53, sck: D52, mosi: D51, miso: D50 }\n")]
    [InlineData("RL1007", "    board: rp2040\n    pins: { ce: GP20, csn: GP17, sck: GP10, mosi: GP19, miso: GP16 }\n", "    board: rp2040\n    pins: { ce: GP20, csn: GP17, sck: GP18, mosi: GP19, miso: GP16 }\n")]
    [InlineData("RL1009", "    board: atmega328p\n    pins: { ce: D9, csn: D10, mosi: D12, miso: D11 }\n", "    board: atmega328p\n    pins: { ce: D9, csn: D10, mosi: D11, miso: D12 }\n")]
    [InlineData("RL1010", "    board: attiny84\n    pins: { ce: PA3, csn: PA7, mosi: PA6, miso: PA5 }\n", "    board: attiny84\n    pins: { ce: PA3, csn: PA7, mosi: D5, miso: D6 }\n")]
    [InlineData(
        "RL1011", "    board: atmega328p\n    pins: { ce: D9, csn: D8 }\n",
        "    board: atmega328p\n    also-uses: { D10: { use: output, direction: output } }\n    pins: { ce: D9, csn: D8 }\n")]
    [InlineData(
        "RL1011", "    board: atmega328p\n    pins: { ce: D9, csn: D8 }\n    also-uses:\n      D6: buzzer\n",
        "    board: atmega328p\n    pins: { ce: D9, csn: D8 }\n    also-uses:\n      D10: { use: output, direction: output }\n      D6: buzzer\n")]
    [InlineData("RL1014", "    board: atmega2560\n    pins: { ce: D49, csn: D53, irq: D22 }\n    service: { by: interrupt }\n", "    board: atmega2560\n    pins: { ce: D49, csn: D53, irq: D2 }\n    service: { by: interrupt }\n")]
    public void In_yaml(string rule, string node, string mended) => Assert.Equal(Block + mended, Mend(Block + node, rule));

    [Theory]
    [InlineData("RL1001", """ "board": "atmega328p" """, """ "board": "atmega328p", "pins": { "ce": "D9", "csn": "D10" } """)]
    [InlineData("RL1001", """ "board": "atmega328p", "pins": { "csn": "D10" } """, """ "board": "atmega328p", "pins": { "csn": "D10", "ce": "D9" } """)]
    [InlineData(
        "RL1006", """ "board": "atmega2560", "pins": { "ce": "D48", "csn": "D53", "sck": "D13", "mosi": "D11", "miso": "D12" } """,
        """ "board": "atmega2560", "pins": { "ce": "D48", "csn": "D53", "sck": "D52", "mosi": "D51", "miso": "D50" } """)]
    [InlineData(
        "RL1009", """ "board": "atmega328p", "pins": { "ce": "D9", "csn": "D10", "mosi": "D12", "miso": "D11" } """,
        """ "board": "atmega328p", "pins": { "ce": "D9", "csn": "D10", "mosi": "D11", "miso": "D12" } """)]
    [InlineData(
        "RL1011", """ "board": "atmega328p", "pins": { "ce": "D9", "csn": "D8" } """,
        """ "board": "atmega328p", "also-uses": { "D10": { "use": "output", "direction": "output" } }, "pins": { "ce": "D9", "csn": "D8" } """)]
    public void In_json(string rule, string node, string mended) => Assert.Equal(Json + mended + "} } }", Mend(Json + node + "} } }", rule));

    // One pin of a group moves only to where the group stays whole; else nothing is offered.
    [Theory]
    [InlineData("RL1013", "    board: stm32f103\n    pins: { ce: PB0, csn: PA15, sck: PB3, mosi: PB5, miso: PB4 }\n")]
    // What several nodes share may hold for other boards.
    [InlineData("RL1001", "    board: atmega328p\nall-nodes:\n  pins: { ce: D9 }\n")]
    public void Nothing_is_offered_that_breaks_something_else(string rule, string node)
    {
        var found = Check(Block + node).Where(finding => finding.Rule.Id == rule).ToList();
        Assert.NotEmpty(found);
        Assert.All(found, finding => Assert.Empty(finding.Fixes));
    }

    private static string Mend(string text, string rule)
    {
        var finding = Check(text).First(one => one.Rule.Id == rule);
        var mended = text;
        foreach (var edit in Assert.Single(finding.Fixes).Edits.OrderByDescending(edit => edit.Place.Start))
            mended = mended[..edit.Place.Start] + edit.NewText + mended[edit.Place.End..];
        Assert.Equal(FixGrade.Offered, finding.Fixes[0].Grade);
        Assert.DoesNotContain(Check(mended), one => one.Severity > Severity.Info && (one.Rule.Id.StartsWith("RL10", StringComparison.Ordinal) || one.Rule.Id.StartsWith("RL80", StringComparison.Ordinal)));
        return mended;
    }

    private static ImmutableArray<Finding> Check(string text) => Linter.Check(new SourceText("fix.radio.yaml", text)).Findings;
}
