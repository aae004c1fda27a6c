using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Survey;
using RadioLint.Tests.Support;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Survey;

/// <summary>What is out, what counts, and in which order.</summary>
public sealed class RankingTests
{
    private const string Printed = "radio: { antenna: printed }, height: 2 m";

    // nRF24L01+ Product Specification 1.0, Tables 6 and 11 against 2400 to 2483.5 MHz: facts radio.md, 1.3, with 60 ppm.
    [Theory, InlineData("250 kbps", 1, 82), InlineData("1 Mbps", 1, 82), InlineData("2 Mbps", 2, 82)]
    public void Only_channels_that_stay_inside_are_ranked(string rate, int first, int last)
    {
        var ranking = Rank(SmallNetwork.With("rate: " + rate), Log("hub", 100, _ => 0));
        Assert.Equal(Enumerable.Range(first, last - first + 1), ranking.Ranked.Select(each => each.Channel).Order());
        Assert.Equal(Enumerable.Range(0, 126), ranking.Channels.Select(each => each.Channel));
        Assert.All(ranking.Channels.Where(each => each.Channel > last), each => Assert.Contains("above the band of GB", each.WhyOut, StringComparison.Ordinal));
        Assert.Contains("below the band of GB", ranking.Channels[0].WhyOut, StringComparison.Ordinal);
        Assert.All(ranking.Channels, each => Assert.Equal(each.Rank is null, each.WhyOut is not null));
    }

    // REG-20 of the worked examples: at 2 Mbps the skirt is low enough on channel 80, not on 81.
    [Fact]
    public void Channels_close_to_a_protected_band_are_out()
    {
        var ranking = Rank(SmallNetwork.With("rate: 2 Mbps").Replace("region: GB", "region: US", StringComparison.Ordinal), Log("hub", 100, _ => 0));
        Assert.Equal(80, ranking.Ranked.Max(each => each.Channel));
        Assert.Contains("stray emission only", ranking.Channels[81].WhyOut, StringComparison.Ordinal);
    }

    [Fact]
    public void Channels_to_avoid_are_out_and_the_line_is_told()
    {
        var ranking = Rank(SmallNetwork.With("avoid: [12, 40..60]"), Log("hub", 100, channel => channel is 12 or 50 ? 0 : 5));
        Assert.All(ranking.Channels.Where(each => each.Channel is 12 or (>= 40 and <= 60)), each => Assert.Equal("`avoid` of the manifest keeps it free, line 4", each.WhyOut));
        Assert.Equal(82 - 22, ranking.Ranked.Count());
    }

    [Theory, InlineData("126"), InlineData("60..40"), InlineData("12-15"), InlineData("-1"), InlineData("1..2..3")]
    public void What_is_no_channel_to_avoid_is_told(string written)
    {
        var findings = Linter.Check(new RadioLint.Text.SourceText("small.radio.yaml", SmallNetwork.With($"avoid: [{written}]"))).Findings;
        Assert.Contains(findings, each => each.Rule.Id == "RL8004" && each.Message.Contains($"`{written}`", StringComparison.Ordinal));
    }

    [Fact]
    public void A_channel_that_a_log_leaves_out_is_not_ranked()
    {
        var observation = new BandObservation("hub");
        var sweep = new Sweep();
        for (var channel = 0; channel < 126; channel++)
            sweep.Samples[channel] = channel == 30 ? 0 : 1;
        observation.Add(sweep);
        var ranking = SurveyJudgement.Rank(SmallNetwork.Read(SmallNetwork.With()), [observation]);
        Assert.Equal("not listened to at every place", ranking.Channels[30].WhyOut);
        Assert.Equal(81, ranking.Ranked.Count());
    }

    [Fact]
    public void The_worst_place_counts()
    {
        var ranking = Rank(SmallNetwork.With(), Log("hub", 500, channel => channel == 30 ? 40 : 1), Log("far", 500, channel => channel == 60 ? 20 : 1));
        Assert.Equal([82, 81], new[] { 30, 60 }.Select(channel => ranking.Channels[channel].Rank!.Value));
        Assert.Equal(new Share(400_000), ranking.Channels[30].Busy);
        Assert.Equal(new Share(200_000), ranking.Channels[60].Busy);
        Assert.Equal(["far", "hub"], ranking.Places);
        Assert.Contains("at hub", ranking.Channels[30].Reasons[0], StringComparison.Ordinal);
    }

    [Fact]
    public void A_node_that_nothing_comes_to_does_not_count()
    {
        var text = SmallNetwork.With(link: "acknowledge: false");
        var ranking = Rank(text, Log("hub", 500, channel => channel == 30 ? 40 : 1), Log("far", 500, channel => channel == 60 ? 90 : 1));
        Assert.Equal(82, ranking.Channels[30].Rank);
        Assert.Equal(new Share(10_000), ranking.Channels[60].Busy);
    }

    [Fact]
    public void The_order_of_places_does_not_matter()
    {
        var network = SmallNetwork.Read(SmallNetwork.With());
        var places = new[] { "hub", "far", "attic" }.Select((name, i) => new SyntheticSite(i, Density.Middle).Survey(name, 1_000, 1_000)).ToList();
        var one = SurveyJudgement.Rank(network, places);
        places.Reverse();
        var other = SurveyJudgement.Rank(network, places);
        Assert.Equal(one.Channels.Select(Flat), other.Channels.Select(Flat));
        Assert.Equal(one.Systems, other.Systems);
        Assert.Equal(one.Places, other.Places);
        Assert.Equal((one.Lasted, one.MoreTime), (other.Lasted, other.MoreTime));

        static string Flat(RankedChannel each) => $"{each} {string.Join('|', each.Reasons)}";
    }

    // COEX-10 of the worked examples: channels clear of Wi-Fi 1, 6, 11, of all of IEEE 802.15.4 and of advertising. Nothing was heard of any of them.
    [Fact]
    public void Where_nothing_is_heard_the_channels_clear_of_what_is_declared_come_first()
    {
        var ranking = Rank(
            SmallNetwork.With($"neighbours: {{ wifi: [1, 6, 11], bluetooth-le: true, ieee-802.15.4: [{string.Join(", ", Enumerable.Range(11, 16))}] }}"), Log("hub", 100, _ => 0));
        Assert.Equal([23, 48, 73, 77, 78, 82], ranking.Ranked.Take(6).Select(each => each.Channel).Order());
        Assert.Equal(3 + 3 + 16, ranking.Systems.Count(each => each.IsDeclared && !each.IsHeard));
    }

    // Channels 6 and 10 together: 36.5 MHz of carriers about 2447 MHz (IEEE 802.11, 40 MHz). What is even over all of it is one pair, whose declared half is somebody else's, if anybody's.
    [Theory]
    [InlineData("", "Wi-Fi channel 6+10 False True")]
    [InlineData("neighbours: { wifi: [6+10] }", "Wi-Fi channel 6+10 True True")]
    [InlineData("neighbours: { wifi: [6] }", "Wi-Fi channel 6 True False|Wi-Fi channel 6+10 False True")]
    public void A_pair_of_wifi_channels_is_heard_as_one(string air, string expected)
    {
        var ranking = Rank(SmallNetwork.With(air), Log("hub", 200, channel => channel is >= 29 and <= 65 ? 10 : 0));
        Assert.Equal(expected, string.Join("|", ranking.Systems.Select(each => $"{SystemNames.Of(each)} {each.IsDeclared} {each.IsHeard}")));
        Assert.Contains("in Wi-Fi channel 6+10, heard here", ranking.Channels[47].Reasons);
    }

    // A hopper over as many channels is on none of them for more than a 35th of the time; two cells leave a valley, and one or both stand above what is left.
    [Theory]
    [InlineData(2, 2, 2)]
    [InlineData(10, 10, 5)]
    [InlineData(10, 20, 6)]
    public void What_is_no_pair_is_not_named_one(int lower, int upper, int between) => Assert.DoesNotContain(
        Rank(SmallNetwork.With(), Log("hub", 200, channel => channel switch { >= 29 and < 46 => lower, >= 46 and <= 48 => between, > 48 and <= 65 => upper, _ => 0 })).Systems, each => each.Partner is not null);

    // Table 9 of the nRF24L01+ Product Specification 1.0: from 3 MHz on a neighbour may be 30 dB stronger at 1 Mbps.
    [Fact]
    public void A_declared_network_of_this_kind_is_kept_at_the_good_spacing()
    {
        var ranking = Rank(SmallNetwork.With("rate: 1 Mbps, neighbours: { networks: [{ network: attic, channel: 40, rate: 1 Mbps }] }"), Log("hub", 100, _ => 0));
        Assert.Equal(Enumerable.Range(38, 5), ranking.Ranked.Reverse().Take(5).Select(each => each.Channel).Order());
        Assert.Contains("2 MHz from network `attic`", ranking.Channels[42].Reasons);
    }

    // A link of 60 m at 250 kbps in the open arrives near -76 dBm: 12 dB less is far below what the detector hears on the next channel but one.
    [Fact]
    public void A_weak_link_fears_what_is_heard_beside_its_channel()
    {
        ChannelRanking Of(string distance) =>
            Rank(SmallNetwork.With("rate: 250 kbps", Printed, Printed, $"distance: {distance}, setting: open"), Log("hub", 100, channel => channel == 40 ? 30 : 1));
        var (near, far) = (Of("3 m"), Of("60 m"));
        Assert.Equal([40], near.Ranked.Where(each => each.Rank == 82).Select(each => each.Channel));
        Assert.DoesNotContain(near.Channels[41].Reasons, each => each.Contains("beside it", StringComparison.Ordinal));
        Assert.Equal([39, 40, 41], far.Ranked.Where(each => each.Rank > 79).Select(each => each.Channel).Order());
        Assert.Contains(far.Channels[41].Reasons, each => each.Contains("what lies beside it may ruin packets too", StringComparison.Ordinal));
    }

    // COEX-04 of the worked examples: the mask of OFDM at 13 MHz from the centre.
    [Fact]
    public void Skirt_of_wifi()
    {
        var example = Published.Example("worked-examples.csv", "COEX-04");
        var wifi = NeighbourPlans.Wifi.Occupied(new(6, null, null, null))!.Value;
        var down = WifiSkirt.Down(wifi, Frequency.FromMegahertz(2_437 + (int)Published.Numbers(example.Input("offset_mhz")).Single()));
        Assert.Equal(-example.Number("result"), down.Centi / 100m, 2);
        Assert.Equal([0, 1_000, 2_000, 2_356, 2_800, 3_400, 4_000, 4_000], new[] { 9, 10, 11, 15, 20, 25, 30, 50 }.Select(off => WifiSkirt.Down(wifi, Frequency.FromMegahertz(2_437 - off)).Centi));
    }

    // COEX-05: what an access point of 20 dBm on channel 6, 5 m away, may put into 1 MHz at channel 50.
    [Fact]
    public void Level_of_a_skirt()
    {
        var example = Published.Example("worked-examples.csv", "COEX-05");
        var wifi = NeighbourPlans.Wifi.Occupied(new(6, null, null, null))!.Value;
        var inEach = new PowerLevel((int)Math.Round(100 * (20 - (10 * Math.Log10(20)))));
        var level = inEach - WifiSkirt.Down(wifi, Frequency.FromMegahertz(2_450)) - PathLoss.FreeSpace(Frequency.FromMegahertz(2_450), new(5_000));
        Assert.InRange(level.Centi / 100m, example.Number("result") - 0.05m, example.Number("result") + 0.05m);
    }

    // Rule catalogue, RL3303: at 1 Mbps a signal just under -64 dBm ruins every link weaker than about -52 dBm (Table 9: 12 dB).
    [Fact]
    public void The_blind_zone_of_each_link_is_told()
    {
        var zone = Assert.Single(Rank(SmallNetwork.With("rate: 1 Mbps", Printed, Printed, "distance: 5 m, setting: open"), Log("hub", 100, _ => 0)).Blind);
        Assert.Equal(new PowerLevel(-6_400), zone.Threshold);
        // 54.21 dB of COEX-05, there at 2450 MHz, here at 2440 MHz.
        Assert.InRange(zone.Planned!.Value.Centi, -5_421, -5_410);
        Assert.Equal(new Gain(1_200), zone.Planned.Value - zone.LeastHarmful!.Value);
        Assert.Null(Assert.Single(Rank(SmallNetwork.With(), Log("hub", 100, _ => 0)).Blind).LeastHarmful);
    }

    [Fact]
    public void More_time_is_none_when_the_first_two_differ_and_unknown_when_they_do_not()
    {
        Assert.Equal(new Duration(0), Rank(SmallNetwork.With(), Log("hub", 2_000, channel => channel == 23 ? 0 : 20)).MoreTime);
        Assert.Null(Rank(SmallNetwork.With(), Log("hub", 2_000, _ => 0)).MoreTime);
    }

    // Two shares of 2 % and 2.5 % from 1,000 samples each differ by 0.5 % +- 1.3 %: seven times as long for 1.96 errors (normal approximation).
    [Fact]
    public void More_time_follows_from_the_difference_and_its_error()
    {
        var dice = new Random(7);
        var observation = new BandObservation("hub");
        for (var number = 0; number < 1_000; number++)
        {
            var sweep = new Sweep { At = Duration.FromMicroseconds(number * 100_000L) };
            for (var channel = 0; channel < 126; channel++)
            {
                sweep.Samples[channel] = 1;
                sweep.Heard[channel] = channel switch { 10 => (number * 7) % 50 == 0 ? 1 : 0, 20 => (number * 11) % 40 == 5 ? 1 : 0, _ => 1 };
            }
            // In an order at random, or batches would be too even.
            (sweep.Heard[10], sweep.Heard[20]) = (dice.Next(1_000) < 20 ? 1 : 0, dice.Next(1_000) < 25 ? 1 : 0);
            observation.Add(sweep);
        }
        var ranking = SurveyJudgement.Rank(SmallNetwork.Read(SmallNetwork.With()), [observation]);
        var (first, second) = (ranking.Ranked.First(), ranking.Ranked.Skip(1).First());
        var error = Math.Sqrt(new[] { first, second }.Sum(each => each.Busy.Millionths / 1e6 * (1 - (each.Busy.Millionths / 1e6)) / 1_000));
        var ratio = Math.Pow(1.96 * error / ((second.Busy.Millionths - first.Busy.Millionths) / 1e6), 2);
        Assert.InRange(ranking.MoreTime!.Value.Nanoseconds / 1e9, 0.5 * (ratio - 1) * 99.9, 2 * (ratio - 1) * 99.9);
        Assert.Equal(new Duration(99_900_000_000), ranking.Lasted);
    }

    [Fact]
    public void Bursts_widen_the_interval()
    {
        // 50 of 1,000 sweeps either way: spread, or in two bursts.
        var spread = Interval(number => number * 7919 % 1_000 < 50);
        var burst = Interval(number => number % 500 < 25);
        Assert.InRange(spread, 20_000, 40_000);
        Assert.InRange(burst, 2 * spread, 1_000_000);

        static long Interval(Func<int, bool> isHeard)
        {
            var observation = new BandObservation("hub");
            for (var number = 0; number < 1_000; number++)
            {
                var sweep = new Sweep();
                for (var channel = 0; channel < 126; channel++)
                    (sweep.Samples[channel], sweep.Heard[channel]) = (1, isHeard(number) ? 1 : 0);
                observation.Add(sweep);
            }
            var (low, high) = SurveyJudgement.Rank(SmallNetwork.Read(SmallNetwork.With()), [observation]).Channels[40].Interval;
            return high.Millionths - low.Millionths;
        }
    }

    private static ChannelRanking Rank(string text, params BandObservation[] places) => SurveyJudgement.Rank(SmallNetwork.Read(text), places);

    /// <summary>Some sweeps of 100 samples a channel, so many of which were heard.</summary>
    private static BandObservation Log(string place, int sweeps, Func<int, int> heard)
    {
        var observation = new BandObservation(place);
        for (var number = 0; number < sweeps; number++)
        {
            var sweep = new Sweep { Number = number, At = Duration.FromMicroseconds(number * 1_000_000L) };
            for (var channel = 0; channel < 126; channel++)
                (sweep.Samples[channel], sweep.Heard[channel]) = (100, heard(channel));
            observation.Add(sweep);
        }
        return observation;
    }
}
