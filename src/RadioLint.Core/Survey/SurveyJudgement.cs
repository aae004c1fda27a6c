using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>One of several networks of a site, with the channel that it gets beside the others.</summary>
/// <param name="Channel">Null when none is left that keeps clear of the others.</param>
/// <param name="Reason">Why this one, in one line.</param>
public sealed record PlacedNetwork(Network Network, ChannelRanking Ranking, int? Channel, string Reason);

/// <summary>From what was heard to the order of the channels.</summary>
public static class SurveyJudgement
{
    /// <summary>Ranks the channels for one network. Places are told apart by their names, whatever their order.</summary>
    public static ChannelRanking Rank(Network network, IReadOnlyList<BandObservation> places)
    {
        var node = network.DistinctNodes.FirstOrDefault(each => each.Part is not null);
        var carriers = node?.Part?.Channel;
        var rows = new List<(int Channel, long Samples, Share Busy)>();
        for (var channel = 0; channel < Sweep.Channels; channel++)
        {
            var worst = places.Where(each => each.Samples(channel) > 0).Select(each => new Share(each.Heard(channel) * 1_000_000 / each.Samples(channel)))
                .OrderByDescending(each => each.Millionths).FirstOrDefault();
            rows.Add((channel, places.Sum(each => each.Samples(channel)), worst));
        }
        var legal = node is null || network.Air.ChosenRate is not { } rate ? ImmutableArray<int>.Empty : node.Part!.ChannelsInside(network.Band.Band, rate);
        var order = rows.Where(each => each.Samples > 0 && legal.Contains(each.Channel)).OrderBy(each => each.Busy.Millionths).ThenBy(each => each.Channel)
            .Select((each, place) => (each.Channel, Rank: place + 1)).ToDictionary(each => each.Channel, each => each.Rank);
        return new()
        {
            Channels = ImmutableArray.CreateRange(rows.Select(each => new RankedChannel(
                each.Channel, carriers?.Carrier(each.Channel) ?? Frequency.FromMegahertz(2_400 + each.Channel), order.TryGetValue(each.Channel, out var rank) ? rank : null,
                order.ContainsKey(each.Channel) ? null : each.Samples == 0 ? "nobody listened there" : "leaves the region's band",
                each.Busy, new(each.Busy, each.Busy), each.Samples, ImmutableArray<string>.Empty))),
            Systems = ImmutableArray<SystemInBand>.Empty,
            Blind = ImmutableArray<BlindZone>.Empty,
            Places = ImmutableArray.CreateRange(places.Select(each => each.Place).OrderBy(each => each, StringComparer.Ordinal)),
            Planned = network.Air.ChosenChannel,
            Lasted = null,
            MoreTime = null,
        };
    }

    /// <summary>Gives each of several networks of one site a channel: the good spacing apart, and least busy in sum.</summary>
    public static ImmutableArray<PlacedNetwork> RankTogether(IReadOnlyList<Network> networks, IReadOnlyList<BandObservation> places) =>
        ImmutableArray.CreateRange(networks.Select(each => Rank(each, places)).Zip(networks, (ranking, network) =>
            new PlacedNetwork(network, ranking, ranking.Ranked.FirstOrDefault()?.Channel, "")));
}
