using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>All places of a survey judged for one network.</summary>
internal sealed class NetworkJudgement
{
    /// <summary>Longer than anybody goes on listening to settle it.</summary>
    private const long Never = 30L * 86_400 * 1_000_000_000;

    private readonly ImmutableArray<PlaceJudgement> places;
    private readonly ImmutableArray<SystemInBand> systems;
    private readonly string?[] whyOut;
    private readonly int[] order;

    /// <summary>By channel, in billionths of time: fine enough to tell channels apart, coarse enough that no last bit decides.</summary>
    private readonly long[] cost = new long[Sweep.Channels];

    public NetworkJudgement(Network network, IReadOnlyList<BandObservation> observed)
    {
        Network = network;
        var declared = BandSystems.Declared(network);
        var heard = observed.Where(each => each.Sweeps > 0).OrderBy(each => each.Place, StringComparer.Ordinal).ToList();
        var receivers = heard.Where(each => network.Nodes.FirstOrDefault(node => node.Name == each.Place) is not { } node || Reception.Listens(network, node)).ToList();
        var radios = network.Nodes.Any(node => node.Part is not null);
        places = radios ? ImmutableArray.CreateRange((receivers.Count > 0 ? receivers : heard).Select(each => new PlaceJudgement(network, each, declared))) : ImmutableArray<PlaceJudgement>.Empty;
        systems = BandSystems.All(declared, places.SelectMany(each => each.Systems));
        whyOut = ChannelsOut.Of(network);
        for (var channel = 0; channel < Sweep.Channels; channel++)
        {
            whyOut[channel] ??= !radios ? "the radios of the network are not known" : places.IsEmpty || places.Any(each => each.Heard.Samples(channel) == 0) ? "not listened to at every place" : null;
            if (whyOut[channel] is null)
                cost[channel] = (long)Math.Round(places.Max(each => each.Cost(channel)) * 1e9, MidpointRounding.AwayFromZero);
        }
        // Of equals the one in use, so that nobody moves for nothing; then where less was heard about it, though by no more than chance.
        order = [.. Enumerable.Range(0, Sweep.Channels).Where(each => whyOut[each] is null).OrderBy(each => cost[each]).ThenBy(each => each != network.Air.ChosenChannel).ThenBy(Around).ThenBy(each => each)];
        Ranking = new()
        {
            Channels = ImmutableArray.CreateRange(Enumerable.Range(0, Sweep.Channels).Select(Row)),
            Systems = systems,
            Blind = BlindZones.Of(network),
            Places = ImmutableArray.CreateRange(heard.Select(each => each.Place)),
            Planned = network.Air.ChosenChannel,
            Lasted = heard.Where(each => each.Lasted is not null).Select(each => each.Lasted).OrderBy(each => each!.Value.Nanoseconds).FirstOrDefault(),
            MoreTime = null,
        };
        Ranking = Ranking with { MoreTime = MoreTime(Ranking.Lasted) };
    }

    public Network Network { get; }

    public ChannelRanking Ranking { get; }

    /// <summary>Share of time, in billionths, in which a packet on a channel would be ruined, at the worst place; null where the channel is out.</summary>
    public long? Cost(int channel) => whyOut[channel] is null ? cost[channel] : null;

    private long Around(int channel) => (long)Math.Round(1e9 * places.Max(place => Enumerable.Range(channel - 2, 5).Where(each => each is >= 0 and < Sweep.Channels && whyOut[each] is null)
        .Select(each => place.Heard.Share[each]).Average()), MidpointRounding.AwayFromZero);

    private RankedChannel Row(int channel)
    {
        var listened = places.Where(each => each.Heard.Samples(channel) > 0).Select(each => (Place: each, Busy: each.Busy(channel))).ToList();
        var carrier = Network.Nodes.FirstOrDefault(node => node.Part is not null)?.Part!.Channel.Carrier(channel) ?? Frequency.FromMegahertz(2_400 + channel);
        var rank = Array.IndexOf(order, channel) is >= 0 and var at ? at + 1 : (int?)null;
        if (listened.Count == 0)
            return new(channel, carrier, rank, whyOut[channel], default, new(default, new(1_000_000)), 0, ImmutableArray<string>.Empty);
        var interval = new Between<Share>(Confidence.Rounded(listened.Max(each => each.Busy.Low)), Confidence.Rounded(listened.Max(each => each.Busy.High)));
        var worst = listened.OrderByDescending(each => each.Busy.Share).First();
        return new(
            channel, carrier, rank, whyOut[channel], Confidence.Rounded(worst.Busy.Share), interval, listened.Sum(each => each.Place.Heard.Samples(channel)),
            ChannelReasons.Of(channel, carrier, worst.Place.Heard, Confidence.Rounded(worst.Busy.Share), Confidence.Rounded(cost[channel] / 1e9), interval, systems, Network, places.Length > 1));
    }

    /// <summary>As long as the difference of the first two, with errors that shrink with the root of time, needs to leave its 95 % interval.</summary>
    private Duration? MoreTime(Duration? lasted)
    {
        if (order.Length < 2)
            return new Duration(0);
        // The place that sees the least difference decides how long.
        var (worst, ratio) = ((PlaceJudgement?)null, 0.0);
        foreach (var place in places.Where(each => (long)Math.Round(each.Cost(order[1]) * 1e9) == cost[order[1]]))
        {
            var difference = place.Difference(order[0], order[1]);
            var t = Confidence.Student(difference.Freedom);
            var needed = difference.Value <= 0 ? double.PositiveInfinity : t * t * difference.Variance / (difference.Value * difference.Value);
            if (worst is null || needed > ratio)
                (worst, ratio) = (place, needed);
        }
        if (worst is not null && ratio <= 1)
            return new Duration(0);
        var more = worst is null || lasted is null ? double.PositiveInfinity : (ratio - 1) * lasted.Value.Nanoseconds;
        return more <= Never ? new Duration((long)Math.Ceiling(more / 1e9) * 1_000_000_000) : null;
    }
}
