using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>Channels that may be offered to a node: none that another rule of this module would find fault with.</summary>
internal static class OpenChannels
{
    // REG-20 of the worked examples: at 2 Mbps the skirt is low enough on channel 80, 3.5 MHz from 2483.5 MHz, and too high on 82.
    private static readonly Frequency Guard = new(3_500_000);

    /// <summary>
    /// Inside the region's band and, where it matters, clear of a protected band above it; rising. Where the part lacks the rate, or
    /// none is chosen, those of its widest signal.
    /// </summary>
    public static ImmutableArray<int> For(Network network, Node node, DataRate? wanted)
    {
        if (node.Part is not { } part)
            return ImmutableArray<int>.Empty;
        var rate = wanted is { } asked && part.Rate(asked) is not null ? asked : part.Rates[part.Rates.Length - 1].Rate;
        return ImmutableArray.CreateRange(
            part.ChannelsInside(network.Band.Band, rate).Where(channel => !IsTooClose(network, node, rate, part.Channel.Carrier(channel))));
    }

    /// <summary>
    /// One node for each place that states a channel, with each rate and part that it is used at: others would only be told the same at the same
    /// place.
    /// </summary>
    public static IEnumerable<Node> Airs(Network network)
    {
        var seen = new HashSet<(Place, DataRate, string, bool)>();
        foreach (var node in network.DistinctNodes)
        {
            if (node is { Part: { } part, Air: { Channel: { } channel, ChosenChannel: not null, ChosenRate: { } rate } } && seen.Add((channel.Place, rate, part.Name, node.Radio.FrontEnd is not null)))
                yield return node;
        }
    }

    /// <summary>The nearest of them, the lower of two; null when there is none.</summary>
    public static int? Nearest(IEnumerable<int> channels, int number) => channels.OrderBy(one => Math.Abs(one - number)).Cast<int?>().FirstOrDefault();

    /// <summary>The nearest that is clear of every declared neighbour: one that is not would only bring the next finding. Null when there is none.</summary>
    public static int? Clear(Network network, Node node, DataRate rate, int number) => Nearest(AllClear(network, node, rate), number);

    /// <summary>All that are clear of every declared neighbour and that the manifest does not want kept free, rising.</summary>
    public static IEnumerable<int> AllClear(Network network, Node node, DataRate rate)
    {
        var taken = Declared(network.Neighbours).ToList();
        return For(network, node, rate).Where(one => node.Air.Avoids(one) is null && taken.TrueForAll(other => !Overlaps(node, one, rate, other)) && IsApart(network, node, one, rate));
    }

    /// <summary>True where a signal with a wide or an amplified skirt stands less than the guard from a protected band.</summary>
    public static bool IsTooClose(Network network, Node node, DataRate rate, Frequency carrier) =>
        network.Band.ProtectedAbove is { } edge && (rate is DataRate.Mbps2 || node.Radio.FrontEnd is not null) && carrier + Guard > edge;

    /// <summary>True where a node's signal shares spectrum with another. Nominal widths, without the crystals' error: a neighbour's plan is no sharper than that.</summary>
    public static bool Overlaps(Node node, int channel, DataRate rate, Between<Frequency> taken) =>
        node.Part?.Rate(rate) is { } at && NeighbourPlans.Overlap(Emission.Around(node.Part.Channel.Carrier(channel), at.Width.Value, default), taken) is not null;

    /// <summary>True where a channel keeps the good distance from every declared network of this kind.</summary>
    private static bool IsApart(Network network, Node node, int channel, DataRate rate) =>
        network.OtherNetworks.All(other => IsApart(node, channel, rate, other.Value));

    /// <summary>True where a channel keeps the good distance from another network of this kind, or nobody knows where that is.</summary>
    public static bool IsApart(Node node, int channel, DataRate rate, OtherNetwork other)
    {
        var own = new NetworkOnAir(node.Part!.Channel.Carrier(channel), rate, ImmutableArray<AddressOnAir>.Empty);
        return OnAir(node, other) is not { } air || Coexistence.Distance(own, air) >= Coexistence.Needed(own, air, Coexistence.GoodSpacing);
    }

    /// <summary>A declared network of this kind; null while its channel is not known. Its carrier is counted as the node's own part counts.</summary>
    public static NetworkOnAir? OnAir(Node node, OtherNetwork other) => other.Channel?.Value.Number is not { } channel ? null : new(
        node.Part!.Channel.Carrier(channel), other.Rate?.Value.Rate,
        ImmutableArray.CreateRange(Addresses(other).Where(one => one.Address.Width >= Address.Narrowest)
            .Select(one => new AddressOnAir(one.Address, one.Place, other.Name?.Value ?? "another network"))));

    private static ImmutableArray<(Address Address, Place Place)> Addresses(OtherNetwork other) =>
        other.Address is { } one ? other.Listens.Insert(0, (one.Value.Address, one.Place)) : other.Listens;

    private static IEnumerable<Between<Frequency>> Declared(Neighbours neighbours)
    {
        foreach (var wifi in neighbours.Wifi)
        {
            if (NeighbourPlans.Wifi.Occupied(wifi.Value) is { } used)
                yield return used;
        }
        foreach (var channel in neighbours.Ieee802154)
        {
            if (NeighbourPlans.Ieee802154.Occupied(channel.Value) is { } used)
                yield return used;
        }
        if (neighbours.BluetoothLe?.Value is true)
        {
            foreach (var channel in NeighbourPlans.BluetoothLe.Advertising)
                yield return NeighbourPlans.BluetoothLe.Occupied(channel);
        }
    }
}
