using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Tests.Support;
using Xunit;
using static RadioLint.Tests.Support.SmallNetwork;

namespace RadioLint.Tests.Radio;

/// <summary>Who arrives on which pipe, and what the chip is told about it.</summary>
public sealed class PipePlanTests
{
    [Fact]
    public void Senders_have_pipes_of_their_own_while_six_suffice()
    {
        var hub = Hub(6);
        Assert.Equal([0, 1, 2, 3, 4, 5], hub.Pipes.Select(pipe => pipe.Number));
        Assert.All(hub.Pipes, pipe => Assert.Single(pipe.Hops));
    }

    [Fact]
    public void A_group_that_is_too_large_shares_one_pipe()
    {
        var hub = Hub(7);
        Assert.Equal([1], hub.Pipes.Select(pipe => pipe.Number));
        Assert.Equal(7, hub.Pipes[0].Hops.Length);
    }

    [Fact]
    public void A_hub_that_asks_for_acknowledgements_itself_leaves_pipe_0_free()
    {
        var text = With(links: "  - { from: hub, to: far-1, payload: order }").Replace("far: {", "far: { each: 1..5,", StringComparison.Ordinal);
        Assert.Equal([1, 2, 3, 4, 5], PlanOf(text, "hub").Pipes.Select(pipe => pipe.Number));
    }

    [Fact]
    public void Pipes_1_to_5_share_all_but_the_last_byte() =>
        Assert.Single(Hub(6).Pipes.Where(pipe => pipe.Number > 0).Select(pipe => $"{new Address(pipe.Address!.Prefix)}").Distinct());

    [Fact]
    public void Another_prefix_goes_to_pipe_0()
    {
        var text = With(link: "address: 0xC2A7D19B33", links: "  - { from: near, to: hub, payload: order, address: 0x91C6A2D533 }").Replace(
            "links:", "  near: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }\nlinks:", StringComparison.Ordinal);
        Assert.Equal(["0 0xC2A7D19B33", "1 0x91C6A2D533"], PlanOf(text, "hub").Pipes.Select(pipe => $"{pipe.Number} {pipe.Address}"));
    }

    // What one link says about a pipe holds for the others that name it.
    [Fact]
    public void A_pipe_keeps_the_address_that_one_of_its_links_writes()
    {
        var text = With(link: "pipe: 2", links: "  - { from: far, to: hub, payload: order, pipe: 2, address: 0xC2A7D19B33 }");
        Assert.Equal(["0xC2A7D19B33", "0xC2A7D19B33"], Read(text).Hops.Select(hop => $"{hop.Address}"));
    }

    [Fact]
    public void A_pipe_cannot_hold_two_addresses()
    {
        var text = With(link: "pipe: 2, address: 0xC2A7D19B33", links: "  - { from: far, to: hub, payload: order, pipe: 2, address: 0xC2A7D19B34 }");
        var network = Read(text);
        Assert.Equal([2, null], network.Hops.Select(hop => hop.Pipe));
        Assert.Equal([2], network.Plan.Of(network.Nodes[0]).Pipes.Select(pipe => pipe.Number));
    }

    // Table 28 of the nRF24L01+ Product Specification 1.0: DYNPD of a pipe needs its EN_AA; 7.3.3.3: the packet says itself that it
    // wants no acknowledgement, so it has the control field and EN_AA is not all 0 (7.9).
    [Fact]
    public void A_sender_without_acknowledgement_still_speaks_the_protocol()
    {
        var image = ImageOf(With(link: "acknowledge: false"), "far");
        Assert.Equal(0x01, image[Registers.EnAa]!.Value[0]);
        Assert.Equal(0x01, image[Registers.Dynpd]!.Value[0]);
        Assert.Equal(0x05, image[Registers.Feature]!.Value[0]);
        Assert.Equal(0x00, image[Registers.SetupRetr]!.Value[0]);
    }

    [Fact]
    public void One_acknowledged_link_turns_it_on_for_its_pipe_alone()
    {
        var text = With(air: "acknowledge: false, payload-length: 1 byte", link: "acknowledge: true", links: "  - { from: near, to: hub, payload: order }").Replace(
            "links:", "  near: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }\nlinks:", StringComparison.Ordinal);
        Assert.Equal(["far True", "near False"], PlanOf(text, "hub").Pipes.Select(pipe => $"{pipe.Hops[0].Sender.Name} {pipe.Acknowledges}"));
    }

    [Theory]
    [InlineData("pipes: { 1: 0xC2A7D19B33, 2: 0x34 }", "", "1 0xC2A7D19B33")]
    [InlineData("pipes: { 1: 0xC2A7D19B33, 2: 0x34 }", "pipe: 2", "2 0xC2A7D19B34")]
    [InlineData("pipes: { 1: 0xC2A7D19B33, 2: 0x34 }", "address: 0xC2A7D19B34", "2 0xC2A7D19B34")]
    [InlineData("pipes: { 1: 0xC2A7D19B33, 2: 0x34 }", "address: 0xC2A7D19B35", " 0xC2A7D19B35")]
    [InlineData("pipes: { 1: 0xC2A7D19B33, 2: 0x91A7D19B34 }", "address: 0x91A7D19B34", "2 0x91A7D19B34")]
    [InlineData("pipes: { 0: 0x91C6A2D533, 1: 0xC2A7D19B34 }", "", "1 0xC2A7D19B34")]
    [InlineData("pipes: { 1: 0xC2A7D19B33, 2: closed }", "pipe: 2", "2 ")]
    public void Own_pipes_take_what_is_meant_for_them(string pipes, string link, string expected)
    {
        var hop = Read(With(hub: pipes, link: link)).Hops[0];
        Assert.Equal(expected, $"{hop.Pipe} {hop.Address}");
    }

    private static NodePlan Hub(int senders) => PlanOf(With().Replace("far: {", $"far: {{ each: 1..{senders},", StringComparison.Ordinal), "hub");
}
