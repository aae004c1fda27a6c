using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Radio;

/// <summary>Delays before a repetition: the classes that keep senders apart, and who gets which.</summary>
public sealed class RetryPlanTests
{
    // The 1 Mbps row is worked-examples.csv MAC-16 (derived there by exhaustive search); the spacing is MAC-10. The others follow from
    // the same two conditions with Table 18 and Table 19 of the nRF24L01+ Product Specification 1.0.
    [Theory]
    [InlineData(DataRate.Mbps2, 32, 0, "250 750 1250 1750 2250 2750 3250 3750")]
    [InlineData(DataRate.Mbps1, 32, 0, "500 1250 2000 2750 3500")]
    [InlineData(DataRate.Kbps250, 32, 0, "1500")]
    [InlineData(DataRate.Kbps250, 9, 4, "750 2000 3250")]
    public void Classes_of_a_packet(DataRate rate, int payload, int acknowledgement, string expected)
    {
        var least = RadioParts.Find("nRF24L01+")!.LeastRetryDelay(rate, acknowledgement)!.Delay;
        var classes = RetryClasses.For(least, OnAir.Packet(rate, 5, payload, 2));
        Assert.Equal(expected, string.Join(' ', classes.Select(delay => delay.Microseconds)));
    }

    // MAC-16 once more, from the table, so that a changed figure there is noticed here.
    [Fact]
    public void Count_of_classes_is_that_of_the_worked_example()
    {
        var row = FactTable.Read("worked-examples.csv").Single(row => row["id"] == "MAC-16");
        Assert.Equal("packet_us=329;step_us=250;min_us=250;max_us=4000", row["inputs"]);
        Assert.Equal(row["result"], $"{RetryClasses.For(Duration.FromMicroseconds(250), Duration.FromMicroseconds(329)).Length}");
    }

    // Any set of delays that keeps the two conditions is at most as large: tried out, all of them.
    [Theory]
    [InlineData(165)]
    [InlineData(329)]
    [InlineData(580)]
    [InlineData(1316)]
    public void No_larger_set_of_delays_exists(int packet)
    {
        var time = Duration.FromMicroseconds(packet);
        var most = 0;
        for (var set = 0; set < 1 << 16; set++)
        {
            var delays = Enumerable.Range(0, 16).Where(step => (set & (1 << step)) != 0).Select(step => 250 * (step + 1)).ToList();
            if (delays.TrueForAll(delay => delay >= packet) && delays.Zip(delays.Skip(1)).All(pair => pair.Second - pair.First >= 2 * packet))
                most = Math.Max(most, delays.Count);
        }
        Assert.Equal(most, RetryClasses.For(Duration.FromMicroseconds(250), time).Length);
    }

    // radio-timing.csv T_fail_max: derived there from Figures 10 and 17 of the nRF24L01+ Product Specification 1.0; worked rows are in RadioCheckTests.
    [Theory, InlineData(DataRate.Kbps250, 32, 4_000, 15), InlineData(DataRate.Mbps1, 9, 750, 3), InlineData(DataRate.Mbps2, 1, 250, 0)]
    public void Giving_up_follows_the_formula(DataRate rate, int payload, int delay, int retries)
    {
        var formula = FactTable.Read("radio-timing.csv").Single(row => row["symbol"] == "T_fail_max")["value"];
        var spi = Frequency.FromMegahertz(8);
        var values = new Dictionary<string, long>(StringComparer.Ordinal)
        {
            ["T_UL"] = OnAir.Upload(payload, spi).Nanoseconds, ["T_OA"] = OnAir.Packet(rate, 5, payload, 2).Nanoseconds,
            ["ARD"] = delay * 1_000, ["130"] = 130_000, ["ARC"] = retries,
        };
        Assert.Equal("T_UL + 130 + (ARC+1)*(T_OA+ARD) + ARC*130", formula);
        var expected = values["T_UL"] + values["130"] + ((values["ARC"] + 1) * (values["T_OA"] + values["ARD"])) + (values["ARC"] * values["130"]);
        Assert.Equal(expected, OnAir.GivingUp(rate, 5, payload, 2, Duration.FromMicroseconds(delay), retries, spi).Nanoseconds);
    }

    [Fact]
    public void A_lone_sender_gets_the_least_legal_delay()
    {
        Assert.Equal(Duration.FromMicroseconds(250), Delay(SmallNetwork.With(), "far"));
        Assert.Equal(Duration.FromMicroseconds(500), Delay(SmallNetwork.With(air: "rate: 250 kbps"), "far"));
        Assert.Equal(
            Duration.FromMicroseconds(750), Delay(SmallNetwork.With(air: "rate: 250 kbps", links: "  - { from: hub, to: far, payload: order, with: acknowledgement }"), "far"));
    }

    [Theory, InlineData(2), InlineData(5), InlineData(8)]
    public void Members_of_a_group_are_kept_apart_while_classes_last(int count)
    {
        var text = SmallNetwork.With(air: "rate: 2 Mbps", payload: "all: bytes 32").Replace("far: {", $"far: {{ each: 1..{count},", StringComparison.Ordinal);
        var delays = SmallNetwork.Read(text).Plan.Nodes.Where(plan => plan.SendsAcknowledged).Select(plan => plan.Retry!.Delay).ToList();
        Assert.Equal(count, delays.Distinct().Count());
    }

    // `far` sends to two hubs; at the second one its delay is settled already and the other senders must keep away from it.
    [Fact]
    public void A_sender_to_two_receivers_is_avoided_at_both()
    {
        foreach (var name in Enumerable.Range(0, 12).Select(index => $"n{(char)('a' + index)}"))
        {
            var text = SmallNetwork.With(
                payload: "all: bytes 32", links: $"  - {{ from: far, to: other, payload: reading }}\n  - {{ from: {name}, to: other, payload: reading }}")
                .Replace("links:", $"  other: {{ board: esp32, pins: {{ ce: GPIO27, csn: GPIO5 }} }}\n  {name}: {{ board: esp32, pins: {{ ce: GPIO27, csn: GPIO5 }} }}\nlinks:", StringComparison.Ordinal);
            Assert.True(Apart(Delay(text, "far"), Delay(text, name)) >= 658, $"far and {name} repeat in step");
        }
    }

    [Fact]
    public void A_written_delay_is_kept_and_avoided()
    {
        foreach (var written in new[] { 250, 500, 1250, 2000 })
        {
            var text = SmallNetwork.With(far: $"retry: {{ delay: {written} us }}", payload: "all: bytes 32", links: "  - { from: near, to: hub, payload: reading }")
                .Replace("links:", "  near: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }\nlinks:", StringComparison.Ordinal);
            Assert.Equal(Duration.FromMicroseconds(written), Delay(text, "far"));
            Assert.True(Apart(Delay(text, "far"), Delay(text, "near")) >= 658, $"near repeats in step with {written} us");
        }
    }

    // Two packets of 329 us keep clear of each other from 658 us on, whichever delay is the longer.
    [Theory]
    [InlineData(250, 908, true)]
    [InlineData(908, 250, true)]
    [InlineData(250, 907, false)]
    [InlineData(907, 250, false)]
    [InlineData(500, 500, false)]
    public void Delays_are_apart_from_two_packets_on(int one, int other, bool areApart) =>
        Assert.Equal(areApart, RetryClasses.AreApart(Duration.FromMicroseconds(one), Duration.FromMicroseconds(other), Duration.FromMicroseconds(329)));

    // Time and steps: 250 us is one step, a nanosecond more is two.
    [Fact]
    public void Times_are_rounded_up_to_steps()
    {
        Assert.Equal(Duration.FromMicroseconds(250), OnAir.RoundUpToStep(Duration.FromMicroseconds(250)));
        Assert.Equal(Duration.FromMicroseconds(500), OnAir.RoundUpToStep(new(250_001)));
        Assert.Equal(Duration.FromMicroseconds(250), OnAir.RoundUpToStep(new(1)));
    }

    // Who sends two payloads to one receiver is alone there all the same.
    [Fact]
    public void Two_links_of_one_sender_are_no_company()
    {
        var text = SmallNetwork.With(payload: "all: bytes 32", links: "  - { from: far, to: hub, payload: order }");
        Assert.Equal((Duration.FromMicroseconds(250), 0), (Delay(text, "far"), SmallNetwork.PlanOf(text, "far").Retry!.Classes.Length));
    }

    // 32 bytes at 250 kbps leave one class (the table above), which is more than an empty acknowledgement needs.
    [Fact]
    public void Of_one_class_all_have_the_delay()
    {
        var text = SmallNetwork.With(air: "rate: 250 kbps", payload: "all: bytes 32").Replace("far: {", "far: { each: 1..3,", StringComparison.Ordinal);
        Assert.All(
            SmallNetwork.Read(text).Plan.Nodes.Where(plan => plan.SendsAcknowledged), plan => Assert.Equal(Duration.FromMicroseconds(1500), plan.Retry!.Delay));
    }

    // Acknowledgements that carry 32 bytes need 1500 us at 250 kbps (Table 18 p34), and that is the one class; who gets empty ones would do with 500 us, and repeat into the other's packet.
    [Fact]
    public void Of_one_class_all_have_the_delay_whatever_they_need_themselves()
    {
        var text = SmallNetwork.With(air: "rate: 250 kbps", payload: "all: bytes 32", links: """
              - { from: near, to: hub, payload: reading }
              - { from: hub, to: far, payload: reading, with: acknowledgement }
            """).Replace("links:", "  near: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }\nlinks:", StringComparison.Ordinal);
        Assert.Equal((Duration.FromMicroseconds(1500), Duration.FromMicroseconds(1500)), (Delay(text, "far"), Delay(text, "near")));
    }

    // Classes of 32 bytes at 1 Mbps: 500, 1250, 2000, 2750 and 3500 us. When all are taken by written delays, the first that is left open begins anew and the next keeps clear of it,
    // though both names ask for the same.
    [Theory]
    [InlineData("500 1250 2000 2750 3500", 500, 1250)]
    [InlineData("500 2000", 1250, 2750)]
    [InlineData("500 1250 2000 2750", 3500, 500)]
    public void Written_delays_take_classes_until_all_are_taken(string written, int first, int second)
    {
        var delays = written.Split(' ');
        var nodes = delays.Skip(1).Select((delay, i) => (Name: $"w{(char)('a' + i)}", More: $", retry: {{ delay: {delay} us }}")).Append((Name: "xa", More: ", each: 1..1")).Append((Name: "xb", More: ", each: 1..1")).ToList();
        var text = SmallNetwork.With(payload: "all: bytes 32", far: $"retry: {{ delay: {delays[0]} us }}", links: string.Concat(nodes.Select(node => $"  - {{ from: {node.Name}, to: hub, payload: reading }}\n")))
            .Replace("links:", string.Concat(nodes.Select(node => $"  {node.Name}: {{ board: esp32, pins: {{ ce: GPIO27, csn: GPIO5 }}{node.More} }}\n")) + "links:", StringComparison.Ordinal);
        Assert.Equal((first, second), ((int)Delay(text, "xa-1").Microseconds, (int)Delay(text, "xb-1").Microseconds));
    }

    // Table 19 p42: (1 + 5 + 23 + CRC) bytes and 9 bits take 249 us with one byte of CRC and 257 us with two; the delay is a multiple of 250 us.
    [Theory]
    [InlineData("1 byte", 250)]
    [InlineData("2 bytes", 500)]
    [InlineData("none", 250)]
    public void The_check_sum_counts(string crc, int least)
    {
        var text = SmallNetwork.With(air: $"crc: {crc}", payload: "all: bytes 23", links: "  - { from: near, to: hub, payload: reading }")
            .Replace("links:", "  near: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }\nlinks:", StringComparison.Ordinal);
        Assert.Equal(least, SmallNetwork.PlanOf(text, "near").Retry!.Classes[0].Microseconds);
    }

    // Receivers by name, then senders by name, whatever the order of the links: as the plan deals them out.
    [Fact]
    public void Lists_are_dealt_out_in_one_order()
    {
        const string Retry = "retry: { delay: [250 us, 500 us, 750 us, 1000 us] }";
        string[] names = ["z", "b", "c", "a"];
        var text = SmallNetwork.With(far: Retry, links: """
              - { from: z, to: near, payload: order }
              - { from: b, to: near, payload: order }
              - { from: a, to: beside, payload: order }
            """).Replace("links:", string.Concat(names.Concat(["near", "beside"]).Select(name => $"  {name}: {{ board: esp32, pins: {{ ce: GPIO27, csn: GPIO5 }}, {Retry} }}\n")) + "links:", StringComparison.Ordinal);
        var network = SmallNetwork.Read(text);
        Assert.Equal(["a", "far", "b", "z"], RetryPlanner.InTurn(network.Hops).Select(node => node.Name));
        Assert.Equal([250L, 500, 750, 1000], RetryPlanner.InTurn(network.Hops).Select(node => Delay(text, node.Name).Microseconds));
    }

    // The longest of the acknowledgements decides: 20 bytes that ride back need 1250 us at 250 kbps (Table 18 p34), in whatever order they and the links are written.
    [Theory]
    [InlineData("reading order", "  - { from: far, to: near, payload: order }\n")]
    [InlineData("order reading", "  - { from: far, to: near, payload: order }\n")]
    [InlineData("order reading", "")]
    public void The_longest_acknowledgement_decides(string riders, string other)
    {
        var back = string.Concat(riders.Split(' ').Select(payload => $"  - {{ from: hub, to: far, payload: {payload}, with: acknowledgement }}\n"));
        var text = SmallNetwork.With(air: "rate: 250 kbps", payload: "all: bytes 20", links: other + back)
            .Replace("links:", "  near: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }\nlinks:", StringComparison.Ordinal);
        Assert.Equal(1250, Delay(text, "far").Microseconds);
        var before = text.Replace("  - { from: far, to: hub, payload: reading, every: 1 min }\n" + other, other + "  - { from: far, to: hub, payload: reading, every: 1 min }\n", StringComparison.Ordinal);
        Assert.Equal(1250, Delay(before, "far").Microseconds);
    }

    // A member's own word is no number, even with a digit in it: its delay is that of its name.
    [Fact]
    public void Members_with_words_are_spread_by_name()
    {
        var text = SmallNetwork.With(air: "rate: 2 Mbps", payload: "all: bytes 32").Replace("far: {", "far: { each: [a1, b2, c3],", StringComparison.Ordinal);
        var delays = SmallNetwork.Read(text).Plan.Nodes.Where(plan => plan.SendsAcknowledged).Select(plan => plan.Retry!.Delay).ToList();
        Assert.Equal(3, delays.Distinct().Count());
    }

    // The eight classes of 32 bytes at 2 Mbps (the table above) go round by number; 0 begins as 1 does, so it moves 1 on.
    [Theory]
    [InlineData("1..10", "250 750 1250 1750 2250 2750 3250 3750 250 750")]
    [InlineData("0..2", "250 750 1250")]
    [InlineData("19..21", "1250 1750 2250")]
    // A number of six figures is still one, of seven a part of the name.
    [InlineData("100003..100004", "1250 1750")]
    public void Members_of_a_group_take_turns(string each, string expected)
    {
        var text = SmallNetwork.With(air: "rate: 2 Mbps", payload: "all: bytes 32").Replace("far: {", $"far: {{ each: {each},", StringComparison.Ordinal);
        var plans = SmallNetwork.Read(text).Plan.Nodes.Where(plan => plan.SendsAcknowledged);
        Assert.Equal(expected, string.Join(' ', plans.Select(plan => plan.Retry!.Delay.Microseconds)));
    }

    // Several written delays go round among the senders of a receiver, in the order of their names whatever that of the links.
    [Fact]
    public void Written_delays_go_round_by_name()
    {
        const string retry = "retry: { delay: [500 us, 1000 us], limit: 5 }";
        var text = SmallNetwork.With(far: retry, links: $"  - {{ from: b, to: hub, payload: order }}\n  - {{ from: a, to: hub, payload: order }}").Replace(
            "links:", string.Concat(new[] { "a", "b" }.Select(name => $"  {name}: {{ board: esp32, pins: {{ ce: GPIO27, csn: GPIO5 }}, {retry} }}\n")) + "links:", StringComparison.Ordinal);
        Assert.Equal([500L, 1000, 500], new[] { "a", "b", "far" }.Select(node => Delay(text, node).Microseconds));
        Assert.All(new[] { "a", "b", "far" }, node => Assert.False(SmallNetwork.PlanOf(text, node).Retry!.IsPlanned));
    }

    // Whatever the name of the other, above a written delay and below it.
    [Fact]
    public void A_written_delay_is_avoided_by_any_name()
    {
        foreach (var name in Enumerable.Range(0, 12).Select(index => $"n{(char)('a' + index)}"))
        {
            foreach (var written in new[] { 500, 1250, 2000, 2750, 3500 })
            {
                var text = SmallNetwork.With(far: $"retry: {{ delay: {written} us }}", payload: "all: bytes 32", links: $"  - {{ from: {name}, to: hub, payload: reading }}")
                    .Replace("links:", $"  {name}: {{ board: esp32, pins: {{ ce: GPIO27, csn: GPIO5 }} }}\nlinks:", StringComparison.Ordinal);
                Assert.True(Apart(Delay(text, "far"), Delay(text, name)) >= 658, $"{name} repeats in step with {written} us");
            }
        }
    }

    // Acknowledged before not, broadcasts last, then by receiver and payload: the image is set up for the first.
    [Fact]
    public void Packets_are_sent_in_one_order_whatever_that_of_the_links()
    {
        var text = SmallNetwork.With(links: """
              - { from: hub, to: [far, near], payload: order, broadcast: true, acknowledge: false }
              - { from: hub, to: far, payload: order, acknowledge: false }
              - { from: hub, to: near, payload: order }
              - { from: hub, to: far, payload: reading }
              - { from: hub, to: far, payload: order }
            """).Replace("links:", "  near: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }\nlinks:", StringComparison.Ordinal);
        Assert.Equal(
            ["far order True False", "far reading True False", "near order True False", "far order False False", "far order False True", "near order False True"],
            SmallNetwork.PlanOf(text, "hub").Sends.Select(hop => $"{hop.Receiver.Name} {hop.Link.PayloadName!.Value} {hop.IsAcknowledged} {hop.Link.IsBroadcast}"));
    }

    // What rides back belongs to the first link of the other direction, and keeps the order in which it is written.
    [Fact]
    public void Riders_belong_to_the_first_link_there()
    {
        var text = SmallNetwork.With(links: """
              - { from: far, to: hub, payload: order }
              - { from: hub, to: far, payload: order, with: acknowledgement }
              - { from: hub, to: far, payload: reading, with: acknowledgement }
            """);
        var hops = SmallNetwork.Read(text).Hops;
        Assert.Equal(["order", "reading"], hops[0].Riders.Select(rider => rider.Link.PayloadName!.Value));
        Assert.Empty(hops[1].Riders);
        Assert.All(hops.Skip(2), rider => Assert.Same(hops[0], rider.Carrier));
    }

    private static Duration Delay(string text, string node) => SmallNetwork.PlanOf(text, node).Retry!.Delay;

    private static long Apart(Duration one, Duration other) => Math.Abs(one.Microseconds - other.Microseconds);
}
