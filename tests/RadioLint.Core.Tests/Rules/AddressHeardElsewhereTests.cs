using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Rules;

/// <summary>RL4203 where two others answer and the receiver itself cannot hear: it stands at the link.</summary>
public sealed class AddressHeardElsewhereTests
{
    [Fact]
    public void The_receiver_need_not_be_among_them()
    {
        var found = Linter.Check(new SourceText("elsewhere.radio.yaml", """
            radiolint: 1
            network: cellar
            region: GB
            air: { channel: 40, rate: 1 Mbps }
            nodes:
              hub: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 }, air: { channel: 41 }, pipes: { 1: 0xC2A7D19B34 } }
              mast: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 }, pipes: { 1: 0xC2A7D19B34 } }
              store: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 }, pipes: { 1: 0xC2A7D19B34 } }
              far: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }
            links:
              - { from: far, to: hub, payload: reading, pipe: 1 }
            payloads:
              reading: { count: uint16 }
            """)).Findings;
        Assert.Equal(11, Assert.Single(found, finding => finding.Rule.Id == "RL4203").Place.From.Line);
    }
}
