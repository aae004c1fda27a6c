using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>One of several networks of a site, with the channel that it gets beside the others.</summary>
/// <param name="Channel">Null when none is left that keeps clear of the others.</param>
/// <param name="Reason">Why this one, in one line.</param>
public sealed record PlacedNetwork(Network Network, ChannelRanking Ranking, int? Channel, string Reason);

/// <summary>Channels for several networks at once.</summary>
internal static class SiteChannels
{
    /// <summary>So many are weighed against each other at once; further ones find those channels taken.</summary>
    private const int AtOnce = 6;

    public static ImmutableArray<PlacedNetwork> Of(IReadOnlyList<NetworkJudgement> networks)
    {
        var chosen = new int?[networks.Count];
        for (var first = 0; first < networks.Count; first += AtOnce)
            Place(networks, chosen, first, Math.Min(AtOnce, networks.Count - first));
        return ImmutableArray.CreateRange(networks.Select((each, i) => new PlacedNetwork(each.Network, each.Ranking, chosen[i], Reason(each.Ranking, chosen[i]))));
    }

    /// <summary>
    /// Goes up the band once: the best way to have placed some of the networks, the last of them on a given channel, is found from the best ways to
    /// have placed one less further down. Only neighbours in frequency need be compared: two that are each clear of one between them are clear of each other.
    /// </summary>
    private static void Place(IReadOnlyList<NetworkJudgement> networks, int?[] chosen, int first, int count)
    {
        var best = new Dictionary<(int Placed, int Last, int Channel), (long Cost, (int, int, int)? Before)>();
        for (var channel = 0; channel < Sweep.Channels; channel++)
        {
            for (var one = 0; one < count; one++)
            {
                if (networks[first + one].Cost(channel) is not { } cost || !IsClear(networks, chosen, first, first + one, channel))
                    continue;
                for (var placed = 0; placed < 1 << count; placed++)
                {
                    if ((placed & (1 << one)) == 0 && Cheapest(placed, one, channel) is { } before)
                        best[(placed | (1 << one), one, channel)] = (before.Cost + cost, before.State);
                }
            }
        }
        // As many as find room; of those the cheapest, then the lowest channels.
        var end = best.OrderByDescending(each => Ones(each.Key.Placed)).ThenBy(each => each.Value.Cost).ThenBy(each => each.Key.Placed).ThenBy(each => each.Key.Channel).ThenBy(each => each.Key.Last)
            .Select(each => ((int, int, int)?)each.Key).FirstOrDefault();
        while (end is { } state)
        {
            chosen[first + state.Item2] = state.Item3;
            end = best[state].Before;
        }

        (long Cost, (int, int, int)? State)? Cheapest(int placed, int one, int channel)
        {
            if (placed == 0)
                return (0, null);
            (long Cost, (int, int, int)? State)? cheapest = null;
            for (var last = 0; last < count; last++)
            {
                var apart = Apart(networks[first + one].Network, networks[first + last].Network);
                for (var below = channel - apart; (placed & (1 << last)) != 0 && below >= 0; below--)
                {
                    if (best.TryGetValue((placed, last, below), out var way) && (cheapest is null || way.Cost < cheapest.Value.Cost))
                        cheapest = (way.Cost, (placed, last, below));
                }
            }
            return cheapest;
        }
    }

    private static bool IsClear(IReadOnlyList<NetworkJudgement> networks, int?[] chosen, int before, int one, int channel) =>
        Enumerable.Range(0, before).All(other => chosen[other] is not { } taken || Math.Abs(taken - channel) >= Apart(networks[one].Network, networks[other].Network));

    // In channels; a rate that is still open counts as the widest.
    private static int Apart(Network one, Network other)
    {
        var (a, b) = (Spacing(one), Spacing(other));
        return (int)((a > b ? a : b).Hertz / 1_000_000);

        static Frequency Spacing(Network network) => Coexistence.GoodSpacing(network.Air.ChosenRate ?? DataRate.Mbps2);
    }

    private static int Ones(int bits)
    {
        var count = 0;
        for (; bits != 0; bits &= bits - 1)
            count++;
        return count;
    }

    private static string Reason(ChannelRanking ranking, int? channel) => channel is not { } number
        ? "no channel is left that keeps its distance from the other networks"
        : ranking.Channels[number] is { Rank: 1 } ? "the quietest of all"
        : FormattableString.Invariant($"rank {ranking.Channels[number].Rank}, so that the networks of the site keep their distance and lose least together");
}
