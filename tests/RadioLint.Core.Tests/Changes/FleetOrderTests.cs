using RadioLint.Changes;
using RadioLint.Model;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests.Changes;

/// <summary>A network between two plans. What both ends must share: nRF24L01+ Product Specification 1.0, 6.2, 6.3, 7.3, 7.9; the order is common practice, no source.</summary>
public sealed class FleetOrderTests
{
    private const string Tree = """
        nodes:
          far: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }
          farther: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 }, sleep: { wakes: to send } }
          hub: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 }, host: { by: serial, speed: 115200 baud } }
          near: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }
          sleeper: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 }, sleep: { wakes: to send } }
        links:
          - { from: [near, sleeper], to: hub, payload: reading, every: 1 min }
          - { from: far, to: near, payload: reading, every: 1 min }
          - { from: farther, to: far, payload: reading, every: 1 min }
        payloads: { reading: { count: uint8 } }

        """;

    [Fact]
    public void The_farthest_first_sleepers_before_others_and_the_hub_last()
    {
        var fleet = new FleetOrder(Read(Tree, 74), Read(Tree, 76));
        var safe = fleet.Safe();
        Assert.Equal("hub", fleet.Hub!.Name);
        Assert.Equal(["farther", "far", "sleeper", "near", "hub"], safe.Select(node => node.Name));
        Assert.Null(fleet.FirstOutOfReach(safe));
        Assert.Empty(fleet.LeftBehind(safe));
        // Any two of one path the wrong way round, and the farther one is out of reach.
        foreach (var (first, second, stranded) in new[] { ("near", "far", "far"), ("hub", "near", "near"), ("far", "farther", "farther") })
        {
            var wrong = safe.Select(node => node.Name == first ? second : node.Name == second ? first : node.Name).Select(name => safe.Single(node => node.Name == name)).ToList();
            Assert.Equal(stranded, fleet.FirstOutOfReach(wrong)?.Node.Name);
        }
    }

    [Fact]
    public void The_same_plan_changes_nobody() => Assert.Empty(new FleetOrder(Read(Tree, 74), Read(Tree + "# a remark\n", 74)).Changed);

    [Fact]
    public void Many_leaves_round_one_hub_are_judged_in_no_time()
    {
        var text = "nodes:\n  hub: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }\n  hive: { each: 1..4000, board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }\n"
            + "links: [ { from: hub, to: hive, payload: order, broadcast: true, acknowledge: false } ]\npayloads: { order: { what: uint8 } }\n";
        var fleet = new FleetOrder(Read(text, 74), Read(text, 76));
        var hubFirst = fleet.Safe().Reverse().ToList();
        Assert.Equal(4001, hubFirst.Count);
        Assert.Equal(2, fleet.FirstOutOfReach(hubFirst)!.Step);
        Assert.Null(fleet.FirstOutOfReach(fleet.Safe()));
        Assert.Equal(4000, fleet.LeftBehind([fleet.Hub!]).Count());
    }

    [Theory]
    [InlineData("", "", null)]
    [InlineData("", "rate: 250 kbps", "rate 1 Mbps against 250 kbps")]
    [InlineData("", "address-width: 4 bytes", "address width 5 against 4")]
    [InlineData("", "crc: 1 byte", "CRC bytes 2 against 1")]
    [InlineData("crc: none, acknowledge: false, payload-length: exact", "acknowledge: false, payload-length: exact", "CRC bytes 0 against 2")]
    // A receiver that looks at no CRC takes a packet with one, and one with acknowledgements off has no control field to be told by.
    [InlineData("acknowledge: false, payload-length: exact", "crc: none, acknowledge: false, payload-length: exact", null)]
    [InlineData("payload-length: exact", "acknowledge: false, payload-length: exact", "acknowledgement of one plan only")]
    [InlineData("payload-length: 8 bytes", "payload-length: 9 bytes", "payload length 8 against 9")]
    [InlineData("payload-length: dynamic", "payload-length: 9 bytes", "payload length dynamic against 9")]
    [InlineData("retry: { delay: 500 us }", "retry: { delay: 750 us }", null)]
    public void What_both_ends_must_share(string before, string after, string? difference)
    {
        var differences = Differences(Small(before), Small(after)).ToList();
        Assert.Equal(difference is null ? [] : [difference], differences.Where(one => !one.StartsWith("address 0x", StringComparison.Ordinal)));
    }

    [Fact]
    public void An_address_of_its_own_in_each_plan_is_no_way_between_them() =>
        Assert.Equal(["address 0xC2A7D19B33 against 0xC2A7D19B34"], Differences(Small("", "address: 0xC2A7D19B33"), Small("", "address: 0xC2A7D19B34")));

    // The sender still has the old plan, the receiver the new one.
    private static IEnumerable<string> Differences(Network before, Network after)
    {
        var (sent, received) = (before.Hops.Single(), after.Hops.Single());
        return LinkEnds.Differences(new(before.Plan.Of(sent.Sender), sent), new(after.Plan.Of(received.Receiver), received));
    }

    private static Network Small(string air, string link = "") => SmallNetwork.Read(SmallNetwork.With(air: air, link: link));

    private static Network Read(string rest, int channel) =>
        SmallNetwork.Read(FormattableString.Invariant($"radiolint: 1\nnetwork: cellar\nregion: GB\nair: {{ channel: {channel}, rate: 1 Mbps }}\n") + rest);
}
