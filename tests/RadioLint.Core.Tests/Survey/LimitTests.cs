using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Survey;
using RadioLint.Text;
using RadioLint.Units;
using Xunit;

namespace RadioLint.Tests.Survey;

/// <summary>Limits of rules on a ranking that was made up for them, one smallest step apart.</summary>
public sealed class LimitTests
{
    private static readonly Network Pair = Linter.Check(new SourceText("a.radio.yaml", """
        radiolint: 1
        network: pair
        region: GB
        air: { channel: 74, rate: 1 Mbps }
        nodes:
          hall: { board: esp32, supply: { from: board pin }, pins: { ce: GPIO27, csn: GPIO5 } }
          cellar: { board: atmega328p, supply: { from: adapter, input: 5 V }, pins: { ce: D9, csn: D10 } }
        links: [ { from: cellar, to: hall, payload: reading, every: 1 min } ]
        payloads: { reading: { temperature: int16 0.1 degC, sequence: uint8 } }
        """)).Network!;

    // A signal that is just heard at -64 dBm is no blind zone; one that is 0.01 dB weaker is.
    [Theory]
    [InlineData(-6_400, false)]
    [InlineData(-6_401, true)]
    public void Blind_below_the_threshold_alone(int harmful, bool isFound)
    {
        var ranking = Ranking(0, 0) with { Blind = [new(Pair.Hops[0], new(-6_400), new(-5_200), new(harmful))] };
        Assert.Equal(isFound, Found("RL3303", ranking).Count == 1);
    }

    [Fact]
    public void The_link_that_suffers_most_speaks_for_all()
    {
        BlindZone Zone(int? harmful) => new(Pair.Hops[0], new(-6_400), harmful is { } planned ? new(planned + 1_200) : null, harmful is { } least ? new(least) : null);
        var ranking = Ranking(0, 0) with { Blind = [Zone(-7_000), Zone(-9_100), Zone(null)] };
        Assert.Contains("a signal of -91 dBm ruins that", Assert.Single(Found("RL3303", ranking)).Message, StringComparison.Ordinal);
        Assert.Contains("is not known", Assert.Single(Found("RL3303", Ranking(0, 0) with { Blind = [Zone(null)] })).Message, StringComparison.Ordinal);
        Assert.Empty(Found("RL3303", Ranking(0, 0) with { Blind = [] }));
    }

    // In millionths: more than twice, and more than what the intervals leave open.
    [Theory]
    [InlineData(1_000, 2_000, 0, false)]
    [InlineData(1_000, 2_001, 0, true)]
    [InlineData(0, 1, 0, true)]
    [InlineData(0, 0, 0, false)]
    [InlineData(1_000, 3_000, 1_000, false)]
    [InlineData(1_000, 3_001, 1_000, true)]
    public void Busy_more_than_twice_as_often_and_for_certain(int best, int planned, int either, bool isFound) =>
        Assert.Equal(isFound, Found("RL3304", Ranking(best, planned, either)).Count == 1);

    [Fact]
    public void A_planned_channel_that_is_out_is_others_business()
    {
        var ranking = Ranking(0, 500_000);
        Assert.Single(Found("RL3304", ranking));
        Assert.Empty(Found("RL3304", ranking with { Channels = ranking.Channels.SetItem(74, ranking.Channels[74] with { Rank = null, WhyOut = "out" }) }));
        Assert.Empty(Found("RL3304", ranking with { Planned = null }));
    }

    private static List<Finding> Found(string rule, ChannelRanking ranking)
    {
        var (log, _) = Surveys.Read("# place: hall\n# started: 2026-05-20 18:30\nchannel,hits,samples\n70,0,1\n");
        return [.. SurveyEvidence.Of(Pair, [new(log, null)], ranking, null).Check().Where(finding => finding.Rule.Id == rule)];
    }

    // Channel 70 is the best, 74 the planned one; nobody listened elsewhere.
    private static ChannelRanking Ranking(int best, int planned, int either = 0) => new()
    {
        Channels = [.. Enumerable.Range(0, 126).Select(channel => channel switch
        {
            70 => Ranked(70, 1, best, either),
            74 => Ranked(74, 2, planned, either),
            _ => new(channel, new(2_400_000_000 + (channel * 1_000_000L)), null, "nobody listened there", default, default, 0, []),
        })],
        Systems = [], Blind = [], Places = ["hall"], Planned = 74, Lasted = null, MoreTime = null,
    };

    private static RankedChannel Ranked(int channel, int rank, int busy, int either) =>
        new(channel, new(2_400_000_000 + (channel * 1_000_000L)), rank, null, new(busy), new(new(Math.Max(0, busy - either)), new(busy + either)), 1_000_000, []);
}
