using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Rules.Spectrum;

namespace RadioLint.Planning;

/// <summary>Chooses what a manifest leaves open.</summary>
public static class Filling
{
    /// <summary>A plan for a network: the same for the same network, whatever the order of its nodes.</summary>
    /// <param name="network">As read, with open or missing values.</param>
    /// <param name="measured">From a survey; null where there is none.</param>
    public static FillPlan Plan(Network network, ChannelCosts? measured)
    {
        if (network.Air.Channel is not { Value.Number: null } || network.DistinctNodes.FirstOrDefault(node => node.Part is not null && node.Air.ChosenRate is not null) is not { } node)
            return new();
        var best = OpenChannels.AllClear(network, node, node.Air.ChosenRate!.Value)
            .OrderBy(channel => measured?.Busy[channel]?.Millionths ?? 0).ThenByDescending(channel => channel).ToList();
        return best.Count == 0 ? new() : new()
        {
            Choices = ImmutableArray.Create(new Choice(null, "air.channel", FormattableString.Invariant($"{best[0]}"), "clear of all declared neighbours")),
        };
    }
}
