using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>Everything that costs something once the rate is settled.</summary>
internal sealed class Situation
{
    private readonly Question question;
    private readonly bool isChannelOpen;
    private readonly ImmutableArray<int> written;
    private readonly Dictionary<int, PowerTable> powers = [];
    private readonly Interferers interferers;

    public Situation(Question question, DataRate? rate)
    {
        this.question = question;
        var (network, freedom) = (question.Network, question.Freedom);
        Rate = rate;
        Air = AtRate.Of(network, freedom, rate);
        var open = network.Nodes.Where(freedom.Channel).ToList();
        isChannelOpen = open.Exists(node => node.Part is not null);
        var tuned = (isChannelOpen ? open : [.. network.Nodes]).ConvertAll(Air.Of);
        Channels = ChannelTable.Of(network, tuned, question.Measured);
        written = isChannelOpen ? ImmutableArray<int>.Empty : ImmutableArray.CreateRange(
            network.Nodes.Select(node => node.Air.ChosenChannel).OfType<int>().Where(channel => channel is >= 0 and < ChannelCosts.Channels).Distinct().OrderBy(channel => channel));
        if (isChannelOpen)
            Tie(network, [.. open]);
        Repeats = RepeatTable.Of(Air, freedom);
        interferers = Interferers.Of(network);
        (Load, Traffic) = TrafficOf(Air);
    }

    public DataRate? Rate { get; }

    public AtRate Air { get; }

    public ChannelTable Channels { get; }

    public RepeatTable Repeats { get; }

    /// <summary>The share of time that the links fill, repetitions included.</summary>
    public Share Load { get; }

    public long Traffic { get; }

    /// <summary>Channels that may be chosen, rising; none but nothing where the channel is written.</summary>
    public IEnumerable<int?> Choosable => isChannelOpen ? Channels.Allowed.Cast<int?>() : [null];

    public bool IsChannelOpen => isChannelOpen;

    /// <summary>Of a channel, or of those that are written.</summary>
    public long ChannelCost(int? channel) => channel is { } one ? Channels.Cost(one) : written.Sum(Channels.Cost);

    /// <summary>The table of power steps; the same for every channel unless the distance of an interferer is known.</summary>
    public PowerTable Powers(int? channel)
    {
        var on = channel ?? (written.Length == 1 ? written[0] : -1);
        var key = interferers.IsEmpty ? -1 : on;
        if (!powers.TryGetValue(key, out var table))
            powers.Add(key, table = PowerTable.Of(question.Network, Air, question.Variables, receiver => key < 0 ? null : interferers.Floor(receiver, key)));
        return table;
    }

    // Both ends of a link must be on one channel: a written one decides.
    private void Tie(Network network, HashSet<Node> open)
    {
        var written = network.Hops.Where(hop => open.Contains(hop.Sender) != open.Contains(hop.Receiver)).Select(hop => open.Contains(hop.Sender) ? hop.Receiver : hop.Sender)
            .Where(node => node.Air.ChosenChannel is not null).GroupBy(node => node.Air.Channel!.Place).Select(same => same.First());
        foreach (var node in written.OrderBy(node => node.Name, Text.NaturalOrder.Instance))
            Channels.Tie(node);
    }

    private static (Share Load, long Cost) TrafficOf(AtRate air)
    {
        var (loads, senders, broadcasts) = (new double[16], new HashSet<Node>(), new HashSet<(Link, Node)>());
        foreach (var hop in air.Hops)
        {
            if (hop.Link.RidesInAcknowledgement || (hop.Link.IsBroadcast && !broadcasts.Add((hop.Link, hop.Sender))))
                continue;
            var plan = air.Plan.Of(hop.Sender);
            if (Spectrum.Traffic.Rate(hop) is not { } rate || Spectrum.Traffic.Busy(plan, hop) is not { } busy)
                continue;
            senders.Add(hop.Sender);
            loads[Math.Min(15, Spectrum.Traffic.Repetitions(plan, hop))] += (double)rate.Packets * (1 + hop.Link.Via.Length) * busy.Nanoseconds / rate.Per.Nanoseconds;
        }
        var load = Contention.Settled(loads);
        return (load, PlanCost.Traffic(load, senders.Count > 1));
    }
}
