using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Text;

namespace RadioLint.Model;

/// <summary>What networks of one site must know of each other: names and what is on the air, with the places in the other's file.</summary>
/// <param name="Site">As its manifest names it; networks of equal names are compared.</param>
/// <param name="Airs">Each channel and rate that a node uses, with each prefix that is listened for there; open ones are left out.</param>
public sealed record SiteNetwork(Stated<string> Site, string Name, ImmutableArray<Stated<OtherNetwork>> Airs)
{
    /// <summary>What others must know of a network; null when it names no site.</summary>
    public static SiteNetwork? Of(Network network)
    {
        if (network.Site is not { } site)
            return null;
        var airs = ImmutableArray.CreateBuilder<Stated<OtherNetwork>>();
        var seen = new HashSet<(int, DataRate, Address?)>();
        var withAddress = new HashSet<(int, DataRate)>();
        foreach (var hop in network.DistinctHops.Where(hop => hop.Address is not null))
            Add(hop.Receiver.Air, new(new WrittenAddress(hop.Address!, IsText: false), hop.AddressPlace));
        foreach (var node in network.DistinctNodes)
            Add(node.Air, null);
        return new(site, network.Name?.Value ?? "", airs.ToImmutable());

        void Add(Air air, Stated<WrittenAddress>? address)
        {
            if (air is not { ChosenChannel: { } channel, ChosenRate: { } rate } || !seen.Add((channel, rate, address?.Value.Address.WithLowByte(0))))
                return;
            if (withAddress.Add((channel, rate)) || address is not null)
                airs.Add(new(new(network.Name, air.Channel, air.Rate, address, null), address?.Place ?? air.Channel!.Place));
        }
    }
}
