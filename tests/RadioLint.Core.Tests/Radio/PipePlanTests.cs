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

    // Six senders leave no pipe for the acknowledgements of what the hub itself sends, so they share.
    [Fact]
    public void A_hub_that_asks_for_acknowledgements_itself_has_five_pipes_to_give()
    {
        var text = With(links: "  - { from: hub, to: far-1, payload: order }").Replace("far: {", "far: { each: 1..6,", StringComparison.Ordinal);
        Assert.Equal([1], PlanOf(text, "hub").Pipes.Select(pipe => pipe.Number));
        Assert.Equal([0, 1, 2, 3, 4, 5], PlanOf(text.Replace("  - { from: hub, to: far-1, payload: order }", "", StringComparison.Ordinal), "hub").Pipes.Select(pipe => pipe.Number));
    }

    // A sender that writes its pipe takes none of the others away: six with an address or a pipe of their own choice and a group of five do not share all in one.
    [Theory]
    [InlineData("pipe: 3")]
    [InlineData("pipe: 3, address: 0xC2A7D19B33")]
    public void Written_pipes_count_once(string written)
    {
        var text = With(links: $"  - {{ from: near, to: hub, payload: order, {written} }}").Replace("far: {", "far: { each: 1..5,", StringComparison.Ordinal)
            .Replace("links:", "  near: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }\nlinks:", StringComparison.Ordinal);
        var hub = PlanOf(text, "hub");
        Assert.Equal(6, hub.Pipes.Length);
        Assert.Equal("near", Assert.Single(hub.Pipes.Single(pipe => pipe.Number == 3).Hops).Sender.Name);
    }

    // One address on one pipe is one pipe, whoever names the two.
    [Fact]
    public void Senders_that_write_the_same_share_it()
    {
        var text = With(link: "pipe: 3, address: 0xC2A7D19B33", links: "  - { from: near, to: hub, payload: order, pipe: 3, address: 0xC2A7D19B33 }").Replace(
            "links:", "  near: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }\nlinks:", StringComparison.Ordinal);
        Assert.Equal(["far", "near"], Assert.Single(PlanOf(text, "hub").Pipes).Hops.Select(hop => hop.Sender.Name));
    }

    // Of two written prefixes the one on a written pipe decides for pipes 1 to 5, the lowest pipe first; the other goes to pipe 0.
    [Theory]
    [InlineData("address: 0xC2A7D19B33", "address: 0x91C6A2D533, pipe: 2", "0 0xC2A7D19B33, 2 0x91C6A2D533")]
    [InlineData("address: 0xC2A7D19B33, pipe: 2", "address: 0x91C6A2D533", "0 0x91C6A2D533, 2 0xC2A7D19B33")]
    public void The_prefix_of_a_written_pipe_decides(string one, string other, string expected)
    {
        var text = With(link: one, links: $"  - {{ from: near, to: hub, payload: order, {other} }}").Replace(
            "links:", "  near: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }\nlinks:", StringComparison.Ordinal);
        Assert.Equal(expected, string.Join(", ", PlanOf(text, "hub").Pipes.Select(pipe => $"{pipe.Number} {pipe.Address}")));
    }

    // Receivers of one broadcast share 255 last bytes: who gets which must not hang on the order of the manifest.
    [Fact]
    public void Addresses_of_one_prefix_do_not_hang_on_the_order()
    {
        var receivers = Enumerable.Range(0, 14).Select(i => $"r{(char)('a' + i)}").ToList();
        string Text(bool isTurned)
        {
            var nodes = receivers.Concat(["sa", "sb", "sc"]).Select(name => $"  {name}: {{ board: esp32, pins: {{ ce: GPIO27, csn: GPIO5 }} }}\n").ToList();
            var links = receivers.SelectMany(to => new[] { "sa", "sb", "sc" }.Select(from => $"  - {{ from: {from}, to: {to}, payload: reading }}\n"))
                .Concat(Enumerable.Range(0, 20).Select(i => $"  - {{ from: hub, to: [{string.Join(", ", receivers)}], payload: p{(char)('a' + i)}, broadcast: true, acknowledge: false }}\n")).ToList();
            var payloads = Enumerable.Range(0, 20).Select(i => $"  p{(char)('a' + i)}: {{ what: uint8 }}\n");
            if (isTurned)
            {
                nodes.Reverse();
                links.Reverse();
            }
            return With().Replace("links:", string.Concat(nodes) + "links:", StringComparison.Ordinal).Replace("payloads:", string.Concat(links) + "payloads:\n" + string.Concat(payloads), StringComparison.Ordinal);
        }
        static List<string> Told(string text) => [.. Read(text).Hops.Select(hop => $"{hop.Sender.Name} {hop.Receiver.Name} {hop.Link.PayloadName!.Value} {hop.Address} {hop.Pipe}").Order(StringComparer.Ordinal)];
        var told = Told(Text(isTurned: false));
        Assert.Equal(told, Told(Text(isTurned: true)));
        Assert.True(told.Count > 300);
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
    [InlineData("pipes: { 2: 0x34 }", "pipe: 2", "2 ")]
    [InlineData("pipes: { 2: 0x91A7D19B34 }", "pipe: 2", "2 0x91A7D19B34")]
    [InlineData("pipes: { 1: closed, 2: 0x91A7D19B34 }", "pipe: 2", "2 0x91A7D19B34")]
    // Of two pipes with one address the lower takes it, in whatever order they are written.
    [InlineData("pipes: { 2: 0x33, 1: 0xC2A7D19B33 }", "address: 0xC2A7D19B33", "1 0xC2A7D19B33")]
    [InlineData("pipes: { 4: 0x34, 3: 0x34, 1: 0xC2A7D19B33 }", "address: 0xC2A7D19B34", "3 0xC2A7D19B34")]
    public void Own_pipes_take_what_is_meant_for_them(string pipes, string link, string expected)
    {
        var hop = Read(With(hub: pipes, link: link)).Hops[0];
        Assert.Equal(expected, $"{hop.Pipe} {hop.Address}");
    }

    [Fact]
    public void A_closed_pipe_is_no_pipe() =>
        Assert.Equal([1, 4], PlanOf(With(hub: "pipes: { 0: closed, 1: 0xC2A7D19B33, 2: closed, 4: 0x34 }", link: "pipe: 2"), "hub").Pipes.Select(pipe => pipe.Number));

    // Who says nothing takes the next open pipe, in the order of names; who says something takes no turn, nor does a broadcast, and the
    // last pipe serves all that are left.
    [Fact]
    public void Senders_to_own_pipes_take_turns()
    {
        string[] names = ["a", "c", "d", "e", "f"];
        var text = With(
            hub: "pipes: { 1: 0xC2A7D19B33, 2: 0x34, 3: 0x35 }",
            links: string.Concat(names.Select(name => $"  - {{ from: {name}, to: hub, payload: order{(name == "c" ? ", address: 0xC2A7D19B35" : "")} }}\n"))
                + "  - { from: b, to: hub, payload: order, broadcast: true, acknowledge: false }\n").Replace(
            "links:", string.Concat(names.Append("b").Select(name => $"  {name}: {{ board: esp32, pins: {{ ce: GPIO27, csn: GPIO5 }} }}\n")) + "links:", StringComparison.Ordinal);
        var hops = Read(text).Hops.Where(hop => hop.Sender.Name.Length == 1).OrderBy(hop => hop.Sender.Name, StringComparer.Ordinal);
        Assert.Equal(["a 1", "b ", "c 3", "d 2", "e 3", "f 3"], hops.Select(hop => $"{hop.Sender.Name} {hop.Pipe}"));
    }

    [Fact]
    public void A_broadcast_and_a_link_of_the_same_sender_have_pipes_of_their_own()
    {
        var text = With(links: "  - { from: hub, to: far, payload: order, acknowledge: false }\n  - { from: hub, to: [far], payload: reading, broadcast: true, acknowledge: false }");
        var hops = Read(text).Hops.Where(hop => hop.Receiver.Name == "far").ToList();
        Assert.Equal(2, hops.Select(hop => hop.Pipe).Distinct().Count());
        Assert.Equal(2, hops.Select(hop => hop.Address).Distinct().Count());
    }

    // Two broadcasts are two addresses, so of two on one pipe the later by name goes without.
    [Fact]
    public void Two_broadcasts_do_not_share_a_written_pipe()
    {
        var text = With(links: string.Concat(new[] { "reading", "order" }.Select(payload => $"  - {{ from: hub, to: [far], payload: {payload}, broadcast: true, acknowledge: false, pipe: 3 }}\n")));
        Assert.Equal(
            ["reading ", "order 3"],
            Read(text).Hops.Where(hop => hop.Link.IsBroadcast).Select(hop => $"{hop.Link.PayloadName?.Value} {hop.Pipe}"));
    }

    [Fact]
    public void Written_addresses_of_one_sender_take_pipes_in_their_own_order()
    {
        var text = With(link: "address: 0xC2A7D19B34", links: "  - { from: far, to: hub, payload: order, address: 0xC2A7D19B33 }");
        Assert.Equal(["2 0xC2A7D19B34", "1 0xC2A7D19B33"], Read(text).Hops.Select(hop => $"{hop.Pipe} {hop.Address}"));
    }

    // A link that writes the address alone, or the pipe alone, joins the lower of two that others wrote with it.
    [Theory]
    [InlineData("address: 0xC2A7D19B33, pipe: 3", "address: 0xC2A7D19B33, pipe: 2", "address: 0xC2A7D19B33", "2 0xC2A7D19B33")]
    [InlineData("address: 0xC2A7D19B33, pipe: 2", "address: 0xC2A7D19B33, pipe: 3", "address: 0xC2A7D19B33", "2 0xC2A7D19B33")]
    [InlineData("address: 0xC2A7D19B34, pipe: 2", "address: 0xC2A7D19B33, pipe: 2", "pipe: 2", "2 0xC2A7D19B33")]
    [InlineData("address: 0xC2A7D19B33, pipe: 2", "address: 0xC2A7D19B34, pipe: 2", "pipe: 2", "2 0xC2A7D19B33")]
    public void What_others_wrote_together_is_not_repeated(string first, string second, string third, string expected)
    {
        var text = With(link: first, links: $"  - {{ from: far, to: hub, payload: order, {second} }}\n  - {{ from: far, to: hub, payload: third, {third} }}")
            .Replace("payloads:", "payloads:\n  third: { what: uint8 }", StringComparison.Ordinal);
        var hop = Read(text).Hops.Single(hop => hop.Link.PayloadName?.Value == "third");
        Assert.Equal(expected, $"{hop.Pipe} {hop.Address}");
    }

    [Theory]
    [InlineData("", "", true)]
    [InlineData("", "address: 0xC2A7D19B33", false)]
    [InlineData("pipes: { 1: 0xC2A7D19B33 }", "", true)]
    [InlineData("pipes: { 1: 0xC2A7D19B33 }", "address: 0xC2A7D19B33", false)]
    public void A_hop_knows_whether_its_address_is_derived(string hub, string link, bool isDerived) =>
        Assert.Equal(isDerived, Read(With(hub: hub, link: link)).Hops[0].IsAddressDerived);

    // `first` and `third` share the node `b`, so all three of their receivers share a prefix, that of the first by name; `second` has nothing to do with them.
    [Fact]
    public void Receivers_of_broadcasts_that_meet_share_a_prefix()
    {
        string[] names = ["a", "b", "c", "d", "e"];
        var text = With(links: """
              - { from: hub, to: [b, c], payload: third, broadcast: true, acknowledge: false }
              - { from: hub, to: [d, e], payload: second, broadcast: true, acknowledge: false }
              - { from: hub, to: [a, b], payload: first, broadcast: true, acknowledge: false }
            """)
            .Replace("links:", string.Concat(names.Select(name => $"  {name}: {{ board: esp32, pins: {{ ce: GPIO27, csn: GPIO5 }} }}\n")) + "links:", StringComparison.Ordinal)
            .Replace("payloads:", "payloads:\n  first: { what: uint8 }\n  second: { what: uint8 }\n  third: { what: uint8 }", StringComparison.Ordinal);
        var prefixes = Read(text).Plan.Nodes.Where(plan => plan.Node.Name.Length == 1)
            .Select(plan => $"{plan.Node.Name} {Assert.Single(plan.Pipes.Select(pipe => $"{new Address(pipe.Address!.Prefix)}").Distinct())}");
        var shared = new Address(DerivedAddresses.Prefix("cellar", "broadcast hub first", 5));
        var other = new Address(DerivedAddresses.Prefix("cellar", "broadcast hub second", 5));
        Assert.Equal([$"a {shared}", $"b {shared}", $"c {shared}", $"d {other}", $"e {other}"], prefixes);
    }

    // A broadcast with an address of its own on pipe 0 binds nobody: its receivers keep the prefixes of their names.
    [Fact]
    public void Receivers_of_a_broadcast_with_a_written_address_share_no_prefix()
    {
        string[] names = ["a", "b"];
        var text = With(links: """
              - { from: hub, to: [a, b], payload: order, broadcast: true, acknowledge: false, pipe: 0, address: 0x91C6A2D533 }
              - { from: far, to: a, payload: reading }
              - { from: far, to: b, payload: reading }
            """)
            .Replace("links:", string.Concat(names.Select(name => $"  {name}: {{ board: esp32, pins: {{ ce: GPIO27, csn: GPIO5 }} }}\n")) + "links:", StringComparison.Ordinal);
        Assert.Equal(
            names.Select(name => $"{name} {new Address(DerivedAddresses.Prefix("cellar", name, 5))}"),
            Read(text).Hops.Where(hop => hop.Sender.Name == "far" && hop.Receiver.Name.Length == 1).Select(hop => $"{hop.Receiver.Name} {new Address(hop.Address!.Prefix)}"));
    }

    // 7.6 p40 of the nRF24L01+ Product Specification 1.0: pipes 2 to 5 take their upper bytes from RX_ADDR_P1, closed or not; low byte first (8.3.1).
    [Fact]
    public void A_closed_pipe_1_still_lends_its_upper_bytes()
    {
        var image = ImageOf(With(hub: "pipes: { 0: 0x91C6A2D533, 2: 0xC2A7D19B34, 3: 0xC2A7D19B35 }"), "hub");
        Assert.Equal(
            ["RX_ADDR_P0 2A33D5A2C691", "RX_ADDR_P1 2B349BD1A7C2", "RX_ADDR_P2 2C34", "RX_ADDR_P3 2D35"],
            image.Frames.Where(frame => frame.Name.StartsWith("RX_ADDR", StringComparison.Ordinal)).Select(frame => $"{frame.Name} {Convert.ToHexString(frame.Bytes.AsSpan())}"));
        Assert.Equal(0x0D, image[Registers.EnRxAddr]!.Value[0]);
    }

    // Reaches of the nRF24L01+ Product Specification 1.0: channels 0 to 125, addresses of 3 to 5 bytes (Table 28).
    [Theory]
    [InlineData("channel: 74", "channel: 125", true)]
    [InlineData("channel: 74", "channel: 126", false)]
    [InlineData("channel: 74", "channel: 0", true)]
    [InlineData("channel: 74", "channel: 74, address-width: 5", true)]
    [InlineData("channel: 74", "channel: 74, address-width: 2", false)]
    [InlineData("channel: 74", "channel: 74, address-width: 6", false)]
    [InlineData("csn: D10 }", "csn: D10 }, power: 7 dBm", false)]
    [InlineData("csn: D10 }", "csn: D10 }, power: -6 dBm", true)]
    [InlineData("every: 1 min", "address: 0xC2A7D1", false)]
    public void There_is_no_image_while_a_value_is_out_of_reach(string from, string to, bool hasImage) =>
        Assert.Equal(hasImage, PlanOf(With().Replace(from, to, StringComparison.Ordinal), "far").Image is not null);

    private static NodePlan Hub(int senders) => PlanOf(With().Replace("far: {", $"far: {{ each: 1..{senders},", StringComparison.Ordinal), "hub");
}
