using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Rules.Spectrum;
using RadioLint.Spectrum;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>What each channel would cost at one rate, and which demand allows it.</summary>
internal sealed class ChannelTable
{
    private readonly Network network;
    private readonly List<(Node Node, DataRate Rate)> kinds;
    private readonly long[] costs = new long[ChannelCosts.Channels];

    private ChannelTable(Network network, List<(Node Node, DataRate Rate)> kinds, bool isMeasured)
    {
        (this.network, this.kinds, IsMeasured) = (network, kinds, isMeasured);
    }

    /// <summary>True when a survey tells how busy channels are.</summary>
    public bool IsMeasured { get; }

    /// <summary>Who asks what of the channel: true where it allows it.</summary>
    public List<(Demand Demand, bool[] Allows)> Demands { get; } = [];

    /// <summary>Those that every demand allows, rising.</summary>
    public IEnumerable<int> Allowed => Enumerable.Range(0, ChannelCosts.Channels).Where(channel => Demands.TrueForAll(one => one.Allows[channel]));

    public long Cost(int channel) => costs[channel];

    /// <summary>How far the signal's edge is from that of the nearest declared neighbour; null where none is declared that has edges.</summary>
    public Frequency? Nearest(int channel) => Declared().SelectMany(one => kinds.Select(kind => Gap(kind, channel, one.Taken))).OrderBy(gap => gap).Cast<Frequency?>().FirstOrDefault();

    /// <param name="tuned">Every node whose channel is looked for, as it would be at the rate.</param>
    public static ChannelTable Of(Network network, IEnumerable<Node> tuned, ChannelCosts? measured)
    {
        // One of each kind that differs in what it fills, hears or sends itself.
        var kinds = tuned.OrderBy(node => node.Name, NaturalOrder.Instance).Where(node => node.Part is not null && node.Air.ChosenRate is { } rate && node.Part.Rate(rate) is not null)
            .GroupBy(node => (node.Part!.Name, node.Air.ChosenRate, node.Radio.FrontEnd is not null, node.Wifi?.Value))
            .Select(same => (same.First(), same.Key.ChosenRate!.Value)).ToList();
        var table = new ChannelTable(network, kinds, measured is not null);
        table.Ask();
        for (var channel = 0; channel < ChannelCosts.Channels; channel++)
            table.costs[channel] = table.Price(channel, measured);
        return table;
    }

    /// <summary>Nobody may leave a channel that a node at the other end of a link is written to be on.</summary>
    public void Tie(Node written) => Add(
        new(written.Air.Channel!.Place, $"`{written.Label}`, at the other end of a link, is on channel {written.Air.ChosenChannel}"),
        (_, _, channel) => channel == written.Air.ChosenChannel);

    /// <summary>Two receivers that answer for one address must not be on one channel.</summary>
    public void KeepFrom(Node written, Address address) => Add(
        new(written.Air.Channel!.Place, $"`{written.Label}` on channel {written.Air.ChosenChannel} answers for `{address}` too"),
        (_, _, channel) => channel != written.Air.ChosenChannel);

    private void Ask()
    {
        var band = network.Band;
        var region = network.RegionCode?.Place ?? network.Place.FirstLine;
        Add(
            new(region, $"the band of {Words.Region(network)}, {band.Band.Low.InMegahertz()} to {band.Band.High.InMegahertz()}, holds the signal whole"),
            (node, rate, channel) => node.Part!.Occupied(channel, rate) is { } used && used.IsInside(band.Band));
        if (band.ProtectedAbove is { } edge)
        {
            Add(
                new(region, $"a wide or amplified signal keeps 3.5 MHz from the protected band at {edge.InMegahertz()}"),
                (node, rate, channel) => !OpenChannels.IsTooClose(network, node, rate, node.Part!.Channel.Carrier(channel)));
        }
        foreach (var range in network.Air.Avoid)
            Add(new(range.Place, $"channel{(range.Value.First == range.Value.Last ? "" : "s")} {range.Value} to be kept free"), (_, _, channel) => !range.Value.Has(channel));
        foreach (var (demand, taken) in Declared())
            Add(demand, (node, rate, channel) => !OpenChannels.Overlaps(node, channel, rate, taken));
        foreach (var other in network.OtherNetworks.Where(other => other.Value.Channel?.Value.Number is not null))
        {
            Add(
                new(other.Value.Channel!.Place, $"{(other.Value.Name is { } name ? $"network `{name.Value}`" : "another network")} on channel {other.Value.Channel.Value.Number} is kept at a distance"),
                (node, rate, channel) => OpenChannels.IsApart(node, channel, rate, other.Value));
        }
        foreach (var (node, _) in kinds.Where(kind => kind.Node.Wifi is { Value: not null }))
        {
            Add(
                new(node.Wifi!.Place, $"`{node.Label}` uses Wi-Fi channel {node.Wifi.Value} itself, which its receiver must be far from"),
                (one, rate, channel) => one != node || OwnWifiNear.Missing(node, channel, rate) is null);
        }
    }

    private void Add(Demand demand, Func<Node, DataRate, int, bool> allows) =>
        Demands.Add((demand, [.. Enumerable.Range(0, ChannelCosts.Channels).Select(channel => kinds.TrueForAll(kind => allows(kind.Node, kind.Rate, channel)))]));

    private IEnumerable<(Demand Demand, Between<Frequency> Taken)> Declared()
    {
        var neighbours = network.Neighbours;
        foreach (var wifi in neighbours.Wifi)
        {
            if (NeighbourPlans.Wifi.Occupied(wifi.Value) is { } used)
                yield return (new(wifi.Place, $"Wi-Fi channel {InsideWifiChannel.Named(wifi.Value)}, {used.Low.InMegahertz()} to {used.High.InMegahertz()}, is kept clear of"), used);
        }
        foreach (var channel in neighbours.Ieee802154)
        {
            if (NeighbourPlans.Ieee802154.Occupied(channel.Value) is { } used)
                yield return (new(channel.Place, $"IEEE 802.15.4 channel {channel.Value}, {used.Low.InMegahertz()} to {used.High.InMegahertz()}, is kept clear of"), used);
        }
        if (neighbours.BluetoothLe is { Value: true } declared)
        {
            foreach (var channel in NeighbourPlans.BluetoothLe.Advertising)
                yield return (new(declared.Place, $"Bluetooth LE advertises at {channel.Centre.InMegahertz()}, which is kept clear of"), NeighbourPlans.BluetoothLe.Occupied(channel));
        }
    }

    private long Price(int channel, ChannelCosts? measured)
    {
        var sum = measured is null ? 0 : measured.Busy[channel]?.Millionths ?? PlanCost.Unmeasured;
        foreach (var (_, taken) in Declared())
            sum += kinds.Select(kind => Beside(kind, channel, taken)).DefaultIfEmpty().Max();
        if (measured is null && network.Neighbours is { Wifi.IsEmpty: true, BluetoothLe: null, Ieee802154.IsEmpty: true })
            sum += Usual(channel);
        if (kinds.Exists(kind => kind.Node.Part is { } part && part.Channel.Carrier(channel).Hertz % part.CrystalFrequency.Value.Hertz == 0))
            sum += PlanCost.ClockMultiple;
        if (network.Before is not null && !IsInTheField(channel))
            sum += PlanCost.OtherThanInTheField;
        return sum;
    }

    /// <summary>True where the plan that `change` names has nodes on a channel.</summary>
    public bool IsInTheField(int channel) => network.Before is { } field && field.Nodes.Any(node => node.Air.ChosenChannel == channel);

    private static long Beside((Node Node, DataRate Rate) kind, int channel, Between<Frequency> taken) =>
        OpenChannels.Overlaps(kind.Node, channel, kind.Rate, taken) ? PlanCost.InsideNeighbour : PlanCost.Beside(Gap(kind, channel, taken));

    private static Frequency Gap((Node Node, DataRate Rate) kind, int channel, Between<Frequency> taken)
    {
        var own = Emission.Around(kind.Node.Part!.Channel.Carrier(channel), kind.Node.Part.Rate(kind.Rate)!.Width.Value, default);
        return own.Low >= taken.High ? own.Low - taken.High : taken.Low >= own.High ? taken.Low - own.High : default;
    }

    // Where nobody says who else is there: the three channels that most sites use, and the advertisers that are everywhere; beside them a tenth of what a declared one costs.
    private long Usual(int channel)
    {
        var sum = 0L;
        foreach (var one in new[] { 1, 6, 11 })
            sum += Usual(channel, NeighbourPlans.Wifi.Occupied(new(one, null, null, null))!.Value, PlanCost.UsualWifi);
        foreach (var one in NeighbourPlans.BluetoothLe.Advertising)
            sum += Usual(channel, NeighbourPlans.BluetoothLe.Occupied(one), PlanCost.UsualAdvertising);
        return sum;
    }

    private long Usual(int channel, Between<Frequency> taken, long inside) =>
        kinds.Select(kind => Beside(kind, channel, taken)).DefaultIfEmpty().Max() is var beside && beside == PlanCost.InsideNeighbour ? inside : beside / 10;
}

/// <summary>What several messages say alike.</summary>
internal static class Words
{
    public static string Region(Network network) => network.RegionCode?.Value ?? "an undeclared region";
}
