using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Text;

namespace RadioLint.Model;

/// <summary>What networks of one site must know of each other: who they are and what is on the air, with the places in the other's file.</summary>
/// <param name="Site">As its manifest names it; networks of equal names are compared.</param>
/// <param name="Airs">One for each channel and rate that its nodes use, by rising channel, then by rate; what is still open is left out.</param>
public sealed record SiteNetwork(Stated<string> Site, ImmutableArray<Stated<OtherNetwork>> Airs)
{
    /// <summary>What others must know of a network; null when it names no site.</summary>
    public static SiteNetwork? Of(Network network)
    {
        if (network.Site is not { } site)
            return null;
        var airs = new SortedDictionary<(int Channel, DataRate Rate), (Air Air, List<(Address, Place)> Listens)>();
        foreach (var plan in network.Plan.Nodes)
        {
            if (plan.Node.Air is not { ChosenChannel: { } channel, ChosenRate: { } rate } air)
                continue;
            if (!airs.TryGetValue((channel, rate), out var same))
                airs.Add((channel, rate), same = (air, []));
            same.Listens.AddRange(plan.Pipes.Where(pipe => pipe.Address is not null).Select(pipe => (pipe.Address!, pipe.Place)));
        }
        // The channel's place stands for all: what is wrong between two networks has one cause, whatever their addresses.
        return new(site, ImmutableArray.CreateRange(airs.Values.Select(one => new Stated<OtherNetwork>(
            new(network.Name, one.Air.Channel, one.Air.Rate, null, null) { Listens = ImmutableArray.CreateRange(one.Listens) }, one.Air.Channel!.Place))));
    }
}
