using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Rules;

/// <summary>Rules that offer addresses meet widths that no radio has: RL4001 speaks, and nothing fails.</summary>
public sealed class WidthThatNoRadioHasTests
{
    [Theory]
    [InlineData(2, "{ 1: closed }")]
    [InlineData(6, "{ 0: closed, 1: closed }")]
    [InlineData(2, "{ 3: 0x34 }")]
    [InlineData(1, "{ 3: 0x34 }")]
    public void Offers_are_withheld(int width, string pipes)
    {
        var found = Linter.Check(new SourceText("width.radio.yaml", $$"""
            radiolint: 1
            network: cellar
            region: GB
            air: { channel: 40, rate: 1 Mbps, address-width: {{width}} }
            nodes:
              hub: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 }, pipes: {{pipes}} }
              far: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }
            links:
              - { from: far, to: hub, payload: reading, pipe: 1 }
            payloads:
              reading: { count: uint16 }
            """)).Findings;
        Assert.Contains(found, finding => finding.Rule.Id == "RL4001");
        Assert.All(found.SelectMany(finding => finding.Fixes).SelectMany(fix => fix.Edits), edit => Assert.NotEqual("", edit.NewText));
    }
}
