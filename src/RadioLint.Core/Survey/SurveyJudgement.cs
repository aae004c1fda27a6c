using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>From what was heard to the order of the channels.</summary>
public static class SurveyJudgement
{
    /// <summary>Ranks the channels for one network. Places are told apart by their names, whatever their order; each is judged by itself, and the worst counts.</summary>
    public static ChannelRanking Rank(Network network, IReadOnlyList<BandObservation> places) => new NetworkJudgement(network, places).Ranking;

    /// <summary>
    /// Gives each of several networks of one site a channel: the good spacing apart (<see cref="Spectrum.Coexistence.GoodSpacing"/>), and least
    /// ruined in sum. In the order of the networks.
    /// </summary>
    public static ImmutableArray<PlacedNetwork> RankTogether(IReadOnlyList<Network> networks, IReadOnlyList<BandObservation> places) =>
        SiteChannels.Of([.. networks.Select(each => new NetworkJudgement(each, places))]);
}
