using RadioLint.Emit;
using RadioLint.Tests.Firmware.Support;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>A node's header holds nothing of other nodes but names and addresses: who joins or leaves re-flashes the receiver alone.</summary>
public sealed class NodesApart
{
    private const string Field = FieldManifest.Head + """
        links:
          - { from: post, to: hub, payload: reading, every: 1 min }
          - { from: hub, to: post, payload: order, with: acknowledgement }
          - { from: hub, to: [post-east, post-north], payload: tick, every: 1 h, broadcast: true, acknowledge: false }
        payloads:
          reading: { sender: uint8, temperature: int16 0.1 degC }
          order: { interval: uint16 s }
          tick: { seconds: uint32 s }
        """;

    [Theory]
    // In the middle of the order of names, so that the receiver's pipes move.
    [InlineData("each: [east, north]", "each: [east, middle, north]")]
    [InlineData("hub: {", "annex: { board: esp32, supply: { from: board pin }, pins: { ce: GPIO27, csn: GPIO5 } }\n  hub: {")]
    public void A_further_node_changes_no_other_sender(string from, string to)
    {
        var changed = Field.Replace(from, to, StringComparison.Ordinal);
        Assert.NotEqual(Field, changed);
        var (before, after) = (Texts(Field), Texts(changed));
        Assert.True(after.Count == before.Count + 1);
        foreach (var sender in new[] { "post_east_radio.h", "post_north_radio.h" })
            Assert.Equal(before[sender], after[sender]);
    }

    [Fact]
    public void The_receiver_alone_changes_with_its_senders()
    {
        var (before, after) = (Texts(Field), Texts(Field.Replace("each: [east, north]", "each: [east, middle, north]", StringComparison.Ordinal)));
        Assert.NotEqual(before["hub_radio.h"], after["hub_radio.h"]);
        Assert.Equal(before[EmitSet.ContractFile], after[EmitSet.ContractFile]);
        Assert.Equal(before[EmitSet.LinkFile], after[EmitSet.LinkFile]);
    }

    [Fact]
    public void A_senders_header_does_not_know_its_pipe_at_the_receiver()
    {
        var sender = Texts(Field)["post_north_radio.h"];
        Assert.Contains("POST_NORTH_TO_HUB_READING_ADDRESS", sender, StringComparison.Ordinal);
        Assert.DoesNotContain("POST_NORTH_TO_HUB_READING_PIPE", sender, StringComparison.Ordinal);
        Assert.Contains("POST_NORTH_FROM_HUB_ORDER_PIPE 0u", sender, StringComparison.Ordinal);
    }

    private static Dictionary<string, string> Texts(string manifest) =>
        Emitted.Files(Emitted.Network("field.radio.yaml", manifest)).ToDictionary(file => file.Name, file => file.Text, StringComparer.Ordinal);
}
