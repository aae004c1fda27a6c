using RadioLint.Model;
using RadioLint.Survey;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests.Survey;

/// <summary>Several networks of one site get channels together.</summary>
public sealed class SiteChannelTests
{
    // 3 MHz at 250 kbps and 1 Mbps, 6 MHz at 2 Mbps: nRF24L01+ Product Specification 1.0, Table 9, 30 dB and 24 dB.
    [Theory, InlineData(1, "1 Mbps", "1 Mbps"), InlineData(2, "1 Mbps", "2 Mbps"), InlineData(3, "250 kbps", "1 Mbps", "2 Mbps"), InlineData(4, "1 Mbps", "1 Mbps", "1 Mbps"), InlineData(5, "2 Mbps", "2 Mbps", "2 Mbps")]
    public void Channels_keep_their_distance_and_lose_least_together(int seed, params string[] rates)
    {
        // Links strong enough that nothing counts but what is heard on the channel.
        const string End = "radio: { antenna: printed }, height: 2 m";
        var networks = rates.Select(rate => SmallNetwork.Read(SmallNetwork.With("rate: " + rate, End, End, "distance: 2 m, setting: open"))).ToList();
        var log = Log(seed);
        var placed = SurveyJudgement.RankTogether(networks, [log]);
        var channels = placed.Select(each => each.Channel!.Value).ToList();
        Assert.True(IsApart(channels, rates));
        // A rate that stands more ruins fewer of what it hears, so sums are those of equal rates.
        if (rates.Distinct().Skip(1).Any())
            return;
        var least = Combinations(placed.Select(each => each.Ranking.Ranked.Select(one => one.Channel).ToList()).ToList(), rates).Min(each => Sum(placed, each));
        Assert.Equal(least, Sum(placed, channels));
        Assert.Equal(placed[0].Ranking.Ranked.First().Channel, SurveyJudgement.RankTogether([networks[0]], [log])[0].Channel);
    }

    [Fact]
    public void Where_no_room_is_left_a_network_goes_without()
    {
        var networks = Enumerable.Range(0, 2).Select(_ => SmallNetwork.Read(SmallNetwork.With("avoid: [1..70, 73..82]"))).ToList();
        var placed = SurveyJudgement.RankTogether(networks, [Log(1)]);
        Assert.Single(placed, each => each.Channel is 71 or 72);
        Assert.Single(placed, each => each.Channel is null);
    }

    [Fact]
    public void Many_networks_keep_their_distance()
    {
        var networks = Enumerable.Range(0, 9).Select(_ => SmallNetwork.Read(SmallNetwork.With())).ToList();
        var channels = SurveyJudgement.RankTogether(networks, [Log(1)]).Select(each => each.Channel!.Value).ToList();
        Assert.True(IsApart(channels, [.. Enumerable.Repeat("1 Mbps", 9)]));
    }

    private static long Sum(IReadOnlyList<PlacedNetwork> placed, IReadOnlyList<int> channels) => placed.Zip(channels, (each, channel) => each.Ranking.Channels[channel].Busy.Millionths).Sum();

    private static bool IsApart(IReadOnlyList<int> channels, string[] rates) => Enumerable.Range(0, channels.Count).All(one => Enumerable.Range(0, one).All(
        other => Math.Abs(channels[one] - channels[other]) >= (rates[one] == "2 Mbps" || rates[other] == "2 Mbps" ? 6 : 3)));

    // Every way, the best thirty of each network: the least sum lies among them.
    private static IEnumerable<IReadOnlyList<int>> Combinations(IReadOnlyList<List<int>> ranked, string[] rates, params int[] chosen)
    {
        if (chosen.Length == rates.Length)
            return IsApart(chosen, rates) ? [chosen] : [];
        return ranked[chosen.Length].Take(30).SelectMany(channel => Combinations(ranked, rates, [.. chosen, channel]));
    }

    // Each channel heard a share of its own in every sweep, so that nothing but those shares tells them apart.
    private static BandObservation Log(int seed)
    {
        var dice = new Random(seed);
        var shares = Enumerable.Range(0, 126).Select(_ => dice.Next(5, 90)).ToList();
        var observation = new BandObservation("hub");
        for (var number = 0; number < 40; number++)
        {
            var sweep = new Sweep();
            for (var channel = 0; channel < 126; channel++)
                (sweep.Samples[channel], sweep.Heard[channel]) = (100, shares[channel]);
            observation.Add(sweep);
        }
        return observation;
    }
}
