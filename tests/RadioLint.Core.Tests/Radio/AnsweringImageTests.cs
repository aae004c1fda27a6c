using RadioLint.Radio;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Radio;

/// <summary>What the image of a node holds whose acknowledgements carry a payload.</summary>
public sealed class AnsweringImageTests
{
    // nRF24L01+ Product Specification 1.0, Table 28, note d: with payloads in acknowledgements, dynamic length stands on pipe 0 of both ends,
    // whatever pipe the packets arrive by; DPL_P0 needs ENAA_P0 (same table, DYNPD).
    [Theory, InlineData(1, 0x03), InlineData(3, 0x09), InlineData(0, 0x01)]
    public void Pipe_0_of_the_receiver_is_dynamic_too(int pipe, byte expected)
    {
        var image = ImageOf("hall", pipe, "  - { from: hall, to: cellar, payload: order, with: acknowledgement }");
        Assert.Equal(expected, image[Registers.Dynpd]!.Value[0]);
        Assert.Equal(expected, image[Registers.EnAa]!.Value[0]);
        Assert.Equal(0x06, image[Registers.Feature]!.Value[0] & 0x06);
        // It is open only where packets arrive by it.
        Assert.Equal(1 << pipe, image[Registers.EnRxAddr]!.Value[0]);
    }

    [Fact]
    public void Without_such_a_payload_pipe_0_is_left_alone()
    {
        var image = ImageOf("hall", 1, "");
        Assert.Equal(0x02, image[Registers.Dynpd]!.Value[0]);
        Assert.Equal(0x02, image[Registers.EnAa]!.Value[0]);
    }

    private static RegisterImage ImageOf(string node, int pipe, string order)
    {
        var text = $$"""
            radiolint: 1
            network: cellar
            region: GB
            air: { channel: 74, rate: 1 Mbps }
            nodes:
              hall: { board: atmega328p, supply: { from: adapter, input: 5 V, capacitor: 10 uF ceramic }, pins: { ce: D9, csn: D10 } }
              cellar: { board: atmega328p, supply: { from: adapter, input: 5 V, capacitor: 10 uF ceramic }, pins: { ce: D9, csn: D10 } }
            links:
              - { from: cellar, to: hall, payload: reading, every: 1 min, pipe: {{pipe}} }
            {{order}}
            payloads: { reading: { temperature: int16 0.1 degC, sequence: uint8 }, order: { wanted: int16 0.1 degC, sequence: uint8 } }

            """;
        return Linter.Read(new SourceText("cellar.radio.yaml", text), _ => null)!.Plan.Nodes.Single(plan => plan.Node.Name == node).Image!;
    }
}
