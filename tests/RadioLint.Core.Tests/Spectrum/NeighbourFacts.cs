using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Tests.Hardware;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Spectrum;

/// <summary>Channel plans and overlaps against worked examples, the standard named in each row.</summary>
public sealed class NeighbourFacts
{
    private static readonly RadioPart Exact = RadioParts.Find("nRF24L01+")! with
    {
        CrystalTolerance = RadioParts.Find("nRF24L01+")!.CrystalTolerance with { Value = new(0) },
    };

    // COEX-01: rectangles of channel 27 at 2 Mbps and Wi-Fi channel 6.
    [Fact]
    public void Overlap_with_a_wifi_channel()
    {
        var example = Published.Example("worked-examples.csv", "COEX-01");
        var own = Exact.Occupied((int)Published.Numbers(example.Input("n")).Single(), DataRate.Mbps2)!.Value;
        var other = Wifi((int)Published.Numbers(example.Input("wifi_ch")).Single());
        Assert.Equal(example.Number("result"), Ours.Megahertz(NeighbourPlans.Overlap(own, other)!.Value));
        Assert.Equal(NeighbourPlans.Overlap(own, other), NeighbourPlans.Overlap(other, own));
    }

    // COEX-02 and COEX-03: 1 MHz wide channels 0 to 83 beside Wi-Fi channels; channel 0 reaches below the band.
    [Theory, InlineData("COEX-02"), InlineData("COEX-03")]
    public void Channels_clear_of_wifi(string id)
    {
        var example = Published.Example("worked-examples.csv", id);
        var plan = Published.Numbers(example.Input("plan")).Select(channel => Wifi((int)channel)).ToList();
        var clear = Enumerable.Range(1, (int)Published.Numbers(example.Input("n_max")).Single())
            .Where(channel => plan.All(wifi => NeighbourPlans.Overlap(Exact.Occupied(channel, DataRate.Mbps1)!.Value, wifi) is null))
            .ToList();
        Assert.Equal(example.Number("result"), clear.Count);
        var left = example["steps"][example["steps"].IndexOf("left: ", StringComparison.Ordinal)..];
        Assert.Equal(left.Split(':', ';')[1].Trim(), InRuns(clear));
    }

    // COEX-06: Bluetooth Core Specification, advertising channels at 2402, 2426 and 2480 MHz, 2 MHz wide.
    [Fact]
    public void Channels_under_bluetooth_advertising()
    {
        var example = Published.Example("worked-examples.csv", "COEX-06");
        var plan = NeighbourPlans.BluetoothLe;
        Assert.Equal(Published.Numbers(example.Input("adv_mhz")), plan.Advertising.Select(channel => Ours.Megahertz(channel.Centre)));
        Assert.Equal([37, 38, 39], plan.Advertising.Select(channel => channel.Index));
        var under = Covered(plan.Advertising.Select(plan.Occupied));
        Assert.Equal(example["result"], InRuns(under));
    }

    // COEX-08: IEEE 802.15.4 channel 26, 2 MHz wide.
    [Fact]
    public void Channels_under_ieee_802_15_4_channel_26()
    {
        var example = Published.Example("worked-examples.csv", "COEX-08");
        var channel = (int)Published.Numbers(example.Input("ch")).Single();
        Assert.Equal(example.Number("result"), Ours.Megahertz(NeighbourPlans.Ieee802154.Channels.Centre(channel)!.Value));
        Assert.EndsWith(": " + InRuns(Covered([NeighbourPlans.Ieee802154.Occupied(channel)!.Value])), example["steps"], StringComparison.Ordinal);
        Assert.Null(NeighbourPlans.Ieee802154.Occupied(27));
        Assert.Null(NeighbourPlans.Ieee802154.Occupied(10));
    }

    // facts/coexist-channels.csv: centre and width of each channel of the three plans.
    [Fact]
    public void Every_channel_of_the_plans_lies_where_it_is_published()
    {
        var exercised = 0;
        foreach (var row in Published.Rows("coexist-channels.csv"))
        {
            if (Filled(row) is not { } used)
                continue;
            var centre = row.Number("centre_mhz");
            var half = row.Number("bandwidth_mhz") / 2;
            Assert.Equal((centre - half, centre + half), (Ours.Megahertz(used.Low), Ours.Megahertz(used.High)));
            exercised++;
        }
        // 13 and 14 of Wi-Fi by width, 9 pairs, 3 advertising channels, 16 of IEEE 802.15.4.
        Assert.Equal(13 + 14 + 9 + 3 + 16, exercised);

        static Between<Frequency>? Filled(PublishedRow row)
        {
            var channels = row.Numbers("channel");
            var system = row["system"];
            if (system.StartsWith("802.11", StringComparison.Ordinal))
                return NeighbourPlans.Wifi.Occupied(new((int)channels[0], channels.Length > 1 ? (int)channels[1] : null, WidthOf(row), null));
            if (system.Contains("802.15.4", StringComparison.Ordinal))
                return NeighbourPlans.Ieee802154.Occupied((int)channels[0]);
            return NeighbourPlans.BluetoothLe.Advertising.FirstOrDefault(each => system == "Bluetooth LE" && each.Index == channels[0]) is { } advertising
                ? NeighbourPlans.BluetoothLe.Occupied(advertising)
                : null;
        }

        // 20 MHz, 40 MHz for a pair and 22 MHz on channel 14 are what a neighbour has without a stated width.
        static Frequency? WidthOf(PublishedRow row) => row["bandwidth_mhz"] is "22" && row["channel"] != "14" ? Frequency.FromMegahertz(22) : null;
    }

    [Fact]
    public void A_channel_that_no_plan_has_fills_nothing()
    {
        Assert.Null(NeighbourPlans.Wifi.Occupied(new(15, null, null, null)));
        Assert.Null(NeighbourPlans.Wifi.Occupied(new(6, 15, null, null)));
        Assert.Null(NeighbourPlans.Wifi.Occupied(new(0, null, null, null)));
    }

    [Fact]
    public void Touching_edges_do_not_overlap()
    {
        Assert.Null(NeighbourPlans.Overlap(new(new(10), new(20)), new(new(20), new(30))));
        Assert.Null(NeighbourPlans.Overlap(new(new(10), new(20)), new(new(21), new(30))));
        Assert.Equal(new Frequency(1), NeighbourPlans.Overlap(new(new(10), new(20)), new(new(19), new(30))));
        Assert.Equal(new Frequency(2), NeighbourPlans.Overlap(new(new(10), new(20)), new(new(12), new(14))));
    }

    private static Between<Frequency> Wifi(int channel) => NeighbourPlans.Wifi.Occupied(new(channel, null, null, null))!.Value;

    private static List<int> Covered(IEnumerable<Between<Frequency>> others)
    {
        var all = others.ToList();
        return [.. Enumerable.Range(1, 83).Where(channel => all.Any(other => NeighbourPlans.Overlap(Exact.Occupied(channel, DataRate.Mbps1)!.Value, other) is not null))];
    }

    // 1, 2, 3, 7 as "1-3 7".
    private static string InRuns(List<int> channels)
    {
        var runs = channels.Select((channel, index) => (channel, Run: channel - index)).GroupBy(pair => pair.Run, pair => pair.channel);
        return string.Join(' ', runs.Select(run => run.First() == run.Last() ? $"{run.First()}" : $"{run.First()}-{run.Last()}"));
    }
}
