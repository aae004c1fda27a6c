using RadioLint.Model;
using RadioLint.Planning;
using RadioLint.Tests.Support;
using RadioLint.Text;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Planning;

/// <summary>Choices, reasons and conflicts of networks that can be worked out by hand.</summary>
public sealed class FillExamples(ITestOutputHelper output)
{
    private static string Network(
        string air = "", string region = "GB", string setting = "open", string hub = "", string far = "", string distance = "20 m", string rest = "", string more = "") => $$"""
        radiolint: 1
        network: cellar
        region: {{region}}
        setting: {{setting}}
        air: { {{air}} }
        nodes:
          hub: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 }, radio: { antenna: printed }, height: 2 m{{Rest(hub)}} }
          far: { board: atmega328p, pins: { ce: D9, csn: D10 }, radio: { antenna: printed }, height: 2 m{{Rest(far)}} }
        {{more}}
        links:
          - { from: far, to: hub, payload: reading, every: 1 min{{(distance.Length == 0 ? "" : ", distance: " + distance)}} }
        {{rest}}
        payloads:
          reading: { count: uint16, sender: uint8, sequence: uint8 }

        """;

    private static string Rest(string more) => more.Length == 0 ? "" : ", " + more;

    private static FillPlan Plan(string text, ChannelCosts? measured = null)
    {
        var network = SmallNetwork.Read(text);
        return Filling.Plan(network, measured);
    }

    private static string Told(FillPlan plan, string key) => Assert.Single(plan.Choices, choice => choice.Key == key && choice.Target is not Node { Name: "hub" }).Value;

    private static string Why(FillPlan plan, string key) => Assert.Single(plan.Choices, choice => choice.Key == key && choice.Target is not Node { Name: "hub" }).Reason;

    // COEX-02 of the worked examples: 1 MHz channels clear of Wi-Fi 1, 6 and 11 are 1, 23 to 26, 48 to 51 and 73 to 83; beside nobody's edge and advertiser 76 is farthest.
    [Fact]
    public void Where_nothing_is_known_a_channel_clear_of_the_usual_ones_is_taken()
    {
        var plan = Plan(Network());
        Assert.Equal("76", Told(plan, "air.channel"));
        Assert.Contains("no neighbours are declared and nothing is measured", Why(plan, "air.channel"), StringComparison.Ordinal);
    }

    [Fact]
    public void The_quietest_of_the_allowed_channels_is_taken()
    {
        var busy = Enumerable.Repeat((Share?)new Share(50_000), ChannelCosts.Channels).ToArray();
        (busy[90], busy[60], busy[30]) = (new Share(0), new Share(10), new Share(20));
        var plan = Plan(Network("avoid: [55..65]"), new([.. busy]));
        Assert.Equal("30", Told(plan, "air.channel"));
        Assert.StartsWith("busy 0.002 % of the time by the survey, busy 5 % on", Why(plan, "air.channel"), StringComparison.Ordinal);
    }

    // Channel 26 of IEEE 802.15.4 fills 2479 to 2481 MHz, advertising channel 39 of Bluetooth LE 2479 to 2481 MHz, Wi-Fi 6 2427 to 2447 MHz (coexist-channels.csv, with its standards).
    [Theory]
    [InlineData("ieee-802.15.4: [26]", 80)]
    [InlineData("ieee-802.15.4: [11, 20]", 50)]
    [InlineData("bluetooth-le: true", 80)]
    [InlineData("wifi: [6]", 37)]
    public void A_channel_inside_a_declared_neighbour_is_not_taken_however_quiet(string neighbours, int quietest)
    {
        var busy = Enumerable.Repeat((Share?)new Share(50_000), ChannelCosts.Channels).ToArray();
        (busy[quietest], busy[60], busy[15]) = (new Share(0), new Share(2_000), new Share(2_000));
        Assert.Equal($"{quietest}", Told(Plan(Network(), new([.. busy])), "air.channel"));
        Assert.Contains(Told(Plan(Network($"neighbours: {{ {neighbours} }}"), new([.. busy])), "air.channel"), new[] { "15", "60" });
    }

    // The nRF24L01 has no 250 kbps (nRF24L01 Product Specification 2.0, 6.2 p22); somebody else's node that takes the network's rate is bound to its part too.
    [Theory]
    [InlineData("radio: { part: nRF24L01, antenna: printed }, external: true", "1 Mbps")]
    [InlineData("radio: { part: nRF24L01+, antenna: printed }, external: true", "250 kbps")]
    public void The_rate_is_one_that_every_part_has(string far, string expected) =>
        Assert.Equal(expected, Told(Plan(Network("rate: open", distance: "40 m", far: "runs-for: 1 year").Replace("radio: { antenna: printed }, height: 2 m, runs-for: 1 year", $"{far}, height: 2 m", StringComparison.Ordinal)), "air.rate"));

    // A sleeper's window takes the span of 16 packets (RL5406): 16 x (130 + 388 + 500) us = 16.288 ms at 250 kbps with 3 bytes, 16 x (130 + 97 + 250) us = 7.632 ms at 1 Mbps (nRF24L01+ Product Specification 1.0, 7.4.2 and Table 19 p42).
    [Theory]
    [InlineData("16288 us", "250 kbps")]
    [InlineData("16287 us", "1 Mbps")]
    public void The_rate_is_one_at_which_written_times_suffice(string window, string expected)
    {
        var text = Network("rate: open", distance: "40 m", hub: $"sleep: {{ wakes: by pin GPIO34, listens: {window} }}").Replace("count: uint16, sender: uint8, sequence: uint8", "count: uint16, sequence: uint8", StringComparison.Ordinal);
        Assert.Equal(expected, Told(Plan(text), "air.rate"));
    }

    // RL4203: two receivers that answer for one address on one channel answer at once.
    [Fact]
    public void An_address_that_is_written_twice_keeps_two_receivers_apart()
    {
        var busy = Enumerable.Repeat((Share?)new Share(50_000), ChannelCosts.Channels).ToArray();
        (busy[70], busy[60]) = (new Share(0), new Share(2_000));
        string Text(string address, string near) => Network(more: $$"""
              shed: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 }, air: { channel: 70 } }
              near: { board: atmega328p, pins: { ce: D9, csn: D10 }{{Rest(near)}} }
            """, rest: "  - { from: near, to: shed, payload: reading, every: 1 h, address: 0xC2A7D19B33 }").Replace("every: 1 min", $"every: 1 min, address: {address}", StringComparison.Ordinal);
        Assert.Equal("60", Told(Plan(Text("0xC2A7D19B33", "air: { channel: 70 }"), new([.. busy])), "air.channel"));
        Assert.Equal("70", Told(Plan(Text("0xC2A7D19B34", "air: { channel: 70 }"), new([.. busy])), "air.channel"));
        // A sender to `shed` whose channel is the network's pulls it to 70, and the address pushes it away.
        Assert.Equal(
            ["`shed`, at the other end of a link, is on channel 70", "`shed` on channel 70 answers for `0xC2A7D19B33` too"],
            Plan(Text("0xC2A7D19B33", "")).Conflict.Select(demand => demand.Words));
    }

    // What is not known of a node forbids nothing, and nothing stops.
    [Fact]
    public void A_node_with_an_unknown_part_is_passed_over()
    {
        var text = Network(air: "rate: open", distance: "40 m", far: "power: 3.3 V").Replace("radio: { antenna: printed }, height: 2 m }", "radio: { antenna: printed, part: nRF99 }, height: 2 m }", StringComparison.Ordinal);
        var plan = Filling.Plan(Linter.Check(new SourceText("a.radio.yaml", text)).Network!, null);
        Assert.Empty(plan.Conflict);
    }

    // Free space over 20 m at 2440 MHz takes 66.22 dB (PROP-02 of the worked examples: 60.20 dB over 10 m). At 1 Mbps -85 dBm are heard: 0 dBm leave 18.78 dB, -6 dBm 12.78 dB, -12 dBm 6.78 dB;
    // 10 dB are wanted in sight.
    [Theory]
    [InlineData("20 m", "", "-6 dBm")]
    [InlineData("8 m", "", "-12 dBm")]
    [InlineData("3 m", "", "-18 dBm")]
    [InlineData("20 m", "runs-for: 1 year", "0 dBm")]
    public void Power_is_the_least_that_keeps_the_margin(string distance, string far, string expected)
    {
        var plan = Plan(Network(distance: distance, far: far));
        Assert.Equal(expected, Told(plan, "power"));
        Assert.Equal(plan.Cost, plan.Bound);
    }

    [Fact]
    public void Power_stays_where_a_distance_is_missing_and_that_is_said()
    {
        var plan = Plan(Network(distance: ""));
        Assert.DoesNotContain(plan.Choices, choice => choice.Key == "power");
        Assert.Contains("`power` of `far` stays at 0 dBm: `distance` of the link from far to hub is not known", plan.Kept);
    }

    // 0 dBm behind 22 dB radiate 22 dBm, 12 dB above 10 dBm EIRP (ETSI EN 300 328 as bands.csv has it): -12 dBm at the chip keep it.
    [Fact]
    public void Power_keeps_the_limit_of_the_region_without_a_distance_too()
    {
        var plan = Plan(Network(distance: "", far: "").Replace("csn: D10 }, radio: { antenna: printed }", "csn: D10 }, radio: { front-end: RFX2401C, antenna: { kind: external, gain: 0 dBi } }", StringComparison.Ordinal));
        Assert.Equal("-18 dBm", Told(plan, "power"));
        Assert.Contains("10 dBm EIRP of GB", Why(plan, "power"), StringComparison.Ordinal);
    }

    // 60 m in sight: free space 75.76 dB; 1 Mbps leaves 9.2 dB of the 10 dB wanted, 250 kbps 18.2 dB (sensitivities of the data sheet's Table 7).
    [Fact]
    public void The_rate_is_as_slow_as_the_margin_asks_for()
    {
        Assert.Equal("250 kbps", Told(Plan(Network("rate: open", distance: "60 m")), "air.rate"));
        // Near by and five times a second the air counts: 218 us of an exchange at 2 Mbps, 842 us at 250 kbps.
        var often = Plan(Network("rate: open", distance: "3 m").Replace("every: 1 min", "every: 200 ms", StringComparison.Ordinal));
        Assert.Equal("2 Mbps", Told(often, "air.rate"));
        Assert.StartsWith("the links fill 0.1097 % of the time; 250 kbps would cost", Why(often, "air.rate"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_rate_that_nobody_wrote_stays_and_a_better_one_is_named() =>
        Assert.Contains(Plan(Network(distance: "60 m")).Kept, line => line.StartsWith("`rate` is not written and stays 1 Mbps: `rate: 250 kbps` would cost ", StringComparison.Ordinal));

    // MAC-16 of the worked examples' kind: delays that differ by two packets do not meet twice.
    [Fact]
    public void Delays_of_a_group_are_dealt_out_as_a_list()
    {
        var plan = Plan(Network().Replace("far: { board", "far: { each: 1..3, board", StringComparison.Ordinal));
        var delays = Told(plan, "retry.delay").Trim('[', ']').Split(", ");
        Assert.Equal(3, delays.Distinct().Count());
        Assert.Equal("spread", Told(plan, "offset"));
        Assert.Equal("10 %", Told(plan, "jitter"));
    }

    // A node's `retry` replaces the network's: what that says of the limit goes with it.
    [Fact]
    public void A_limit_that_the_network_states_stays()
    {
        var plan = Plan(Network("retry: { limit: 5 }"));
        Assert.Equal("5", Told(plan, "retry.limit"));
        Assert.DoesNotContain(Plan(Network(far: "retry: { limit: 5 }")).Choices, choice => choice.Key == "retry.limit");
    }

    // Giving up at 1 Mbps takes 10 us of upload at 4 MHz, 130 us, and (ARC + 1)(105 us + 250 us) + ARC x 130 us (Figures 10 and 17): 2433 us for ARC = 4, 2918 us for 5; half of the period is 2500 us.
    [Fact]
    public void Giving_up_ends_within_half_of_the_period()
    {
        var plan = Plan(Network().Replace("every: 1 min", "every: 5 ms", StringComparison.Ordinal));
        Assert.Equal("4", Told(plan, "retry.limit"));
        Assert.Contains("within half of the period, 2500 us", Why(plan, "retry.limit"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("channel: 67", "", 67)]
    [InlineData("channel: 67", ", neighbours: { wifi: [12] }", null)]
    public void The_field_keeps_its_channel_unless_that_costs_more(string field, string neighbours, int? kept)
    {
        var open = Network("channel: open" + neighbours, rest: "change: { from: field.yaml, order: [hub, far], by: cable, fall-back: none }");
        var network = Linter.Check("small.radio.yaml", open, below => below == "field.yaml" ? System.Text.Encoding.UTF8.GetBytes(Network(field)) : null, null).Network!;
        Assert.NotNull(network.Before);
        var choice = Assert.Single(Filling.Plan(network, null).Choices, one => one.Key == "air.channel");
        Assert.Equal(kept is not null, choice.Value == "67");
        Assert.Equal(kept is not null, choice.Reason.Contains("that of the plan in the field", StringComparison.Ordinal));
        // Without a plan in the field it would not be the one.
        Assert.NotEqual("67", Told(Plan(Network("channel: open" + neighbours)), "air.channel"));
    }

    [Fact]
    public void Channels_to_keep_free_are_read_or_refused()
    {
        Assert.Equal(["12", "40..60"], SmallNetwork.Read(Network("avoid: [12, 40..60]")).Air.Avoid.Select(range => range.Value.ToString()));
        var refused = Linter.Check(new SourceText("small.radio.yaml", Network("avoid: [60..40]"))).Findings;
        Assert.Contains(refused, finding => finding.Place.Text == "60..40" && finding.Rule.Severity == RadioLint.Findings.Severity.Error);
    }

    [Fact]
    public void What_the_user_wrote_is_kept_and_priced()
    {
        var plan = Plan(Network("channel: 37", far: "power: 0 dBm", distance: "3 m"));
        Assert.DoesNotContain(plan.Choices, choice => choice.Key is "air.channel" || (choice.Key is "power" && choice.Target is Node { Name: "far" }));
        Assert.Equal(2, plan.Fixed.Length);
        var (channel, power) = (plan.Fixed.Single(one => one.Key == "air.channel"), plan.Fixed.Single(one => one.Key == "power"));
        Assert.Equal(("37", "76", "37"), (channel.Value, channel.Better, channel.Place.Text));
        Assert.Equal(("0 dBm", "-18 dBm"), (power.Value, power.Better));
        // On Wi-Fi channel 6 as most sites have it: 20,000 points, and what lies beside 76.
        Assert.InRange(channel.Cost - channel.IfFree, 19_000, 20_000);
        // 18 dB more than the least step.
        Assert.Equal(1_800, power.Cost - power.IfFree);
    }

    [Fact]
    public void Conflicting_demands_are_told_and_none_too_many()
    {
        // Wi-Fi 1, 6 and 11 leave 20 channels (COEX-02), which are to be kept free.
        var plan = Plan(Network("avoid: [0..1, 23..26, 48..51, 73..83, 99], neighbours: { wifi: [1, 6, 11] }"));
        Assert.Empty(plan.Choices);
        Assert.Equal(
            ["Wi-Fi channel 1, 2402.0 MHz to 2422.0 MHz, is kept clear of", "Wi-Fi channel 11, 2452.0 MHz to 2472.0 MHz, is kept clear of", "Wi-Fi channel 6, 2427.0 MHz to 2447.0 MHz, is kept clear of",
                "channels 0..1 to be kept free", "channels 23..26 to be kept free", "channels 48..51 to be kept free", "channels 73..83 to be kept free", "the band of GB, 2400.0 MHz to 2483.5 MHz, holds the signal whole"],
            plan.Conflict.Select(demand => demand.Words).OrderBy(words => words, StringComparer.Ordinal));
    }

    // 150 m indoors: 20 log 2440 + 30 log 150 - 28 = 105.03 dB (ITU-R P.1238), 11 dB more than 0 dBm and -94 dBm bridge; the front end that would bridge it is not lawful.
    [Fact]
    public void A_link_that_nothing_lawful_bridges_is_a_conflict()
    {
        var plan = Plan(Network("rate: 1 Mbps", setting: "office", distance: "150 m"));
        Assert.Equal(["`far` is heard by `hub` over 150 m"], plan.Conflict.Select(demand => demand.Words));
        Assert.Equal("150 m", plan.Conflict[0].Place.Text);
        // 40 m: 87.8 dB, which 250 kbps bridges and the written 1 Mbps does not.
        Assert.Equal(
            ["`far` is heard by `hub` over 40 m", "the rate is 1 Mbps"], Plan(Network("rate: 1 Mbps", setting: "office", distance: "40 m")).Conflict.Select(demand => demand.Words).Order(StringComparer.Ordinal));
        Assert.Equal("250 kbps", Told(Plan(Network("rate: open", setting: "office", distance: "40 m")), "air.rate"));
        // 0 dBm would do.
        Assert.Equal(
            ["`far` is heard by `hub` over 25 m", "`far` sends at -18 dBm"],
            Plan(Network("rate: 250 kbps", setting: "office", distance: "25 m", far: "power: -18 dBm")).Conflict.Select(demand => demand.Words).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Eight_senders_share_pipes_where_packets_say_who_sent_them()
    {
        var names = Enumerable.Range(1, 7).Select(i => $"s{i}").ToList();
        var nodes = string.Join("\n", names.Select(name => $"  {name}: {{ board: atmega328p, pins: {{ ce: D9, csn: D10 }} }}"));
        string With(string payload) => Network(
            more: nodes, rest: string.Join("\n", names.Select(name => $"  - {{ from: {name}, to: hub, payload: {payload}, every: 1 min }}")) ).Replace("payloads:", "payloads:\n  bare: { count: uint16 }", StringComparison.Ordinal);
        var shared = Plan(With("reading"));
        Assert.Empty(shared.Conflict);
        var pipes = shared.Choices.Where(choice => choice.Key == "pipe").ToList();
        Assert.Equal(8, pipes.Count);
        Assert.Equal(6, pipes.Select(choice => choice.Value).Distinct().Count());
        Assert.True(pipes.GroupBy(choice => choice.Value).All(pipe => pipe.Count() <= 2));
        // Without a word of who sent it each needs a pipe: seven of them, and one that the link from far has.
        var conflict = Plan(With("bare")).Conflict;
        Assert.Equal(7, conflict.Length);
        Assert.All(conflict, demand => Assert.Contains("a pipe of their own at `hub`", demand.Words, StringComparison.Ordinal));
    }

    [Fact]
    public void Derived_addresses_are_listed_with_their_reason()
    {
        var plan = Plan(Network());
        var address = Assert.Single(plan.Derived, choice => choice.Key == "address");
        Assert.IsType<Link>(address.Target);
        Assert.Equal(12, address.Value.Length);
        Assert.Contains("far to hub: from their names", address.Reason, StringComparison.Ordinal);
        Assert.Equal("1", Assert.Single(plan.Derived, choice => choice.Key == "pipe").Value);
    }

    [Fact]
    public void The_apiary_is_filled()
    {
        var text = File.ReadAllText(Path.Combine(Fixtures.Root, "docs/examples/larkfield-apiary/larkfield-apiary.radio.yaml"))
            .Replace("channel: 74 ", "channel: open ", StringComparison.Ordinal).Replace("rate: 250 kbps", "rate: open", StringComparison.Ordinal);
        var plan = Plan(text);
        Assert.Empty(plan.Conflict);
        Assert.Equal("250 kbps", Told(plan, "air.rate"));
        Assert.Equal(plan.Bound, plan.Cost);
        foreach (var choice in plan.Choices.Concat(plan.Derived))
            output.WriteLine($"{(choice.Target as Node)?.Entry}{(choice.Target as Link)?.Name} {choice.Key}: {choice.Value} # {choice.Reason}");
        foreach (var one in plan.Fixed)
            output.WriteLine($"{one.Place} {one.Key} {one.Value} {one.Better}: {one.Cost} {one.IfFree}");
        foreach (var line in plan.Kept)
            output.WriteLine(line);
    }
}
