using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Spectrum;

namespace RadioLint.Survey;

/// <summary>Channels that may be offered in the planned one's stead.</summary>
internal static class Proposals
{
    private const int Most = 3;

    /// <summary>The best that every node of the network may use and that keeps clear of all declared neighbours: another would only bring the next finding.</summary>
    public static ImmutableArray<int> Of(Network network, ChannelRanking ranking)
    {
        var clear = OpenChannels.Airs(network).Where(node => node.Air.Channel!.Place == network.Air.Channel?.Place)
            .Select(node => new HashSet<int>(OpenChannels.AllClear(network, node, node.Air.ChosenRate!.Value))).ToList();
        return ImmutableArray.CreateRange(ranking.Ranked.Select(each => each.Channel).Where(channel => clear.Count > 0 && clear.TrueForAll(each => each.Contains(channel))).Take(Most));
    }
}
