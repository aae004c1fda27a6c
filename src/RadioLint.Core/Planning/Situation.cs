using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Rules.Range;
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
    private readonly Dictionary<Hop, PathFacts?> paths;
    private PowerTable? undisturbed;

    public Situation(Question question, DataRate? rate)
    {
        this.question = question;
        paths = [];
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
        {
            Tie(network, [.. open]);
            KeepApart([.. tuned]);
        }
        Repeats = RepeatTable.Of(Air, freedom);
        Delays = new(() => RepeatSearch.Solve(Repeats));
        interferers = Interferers.Of(network);
        (Load, Traffic) = TrafficOf(Air);
    }

    /// <summary>The same with other freedom of power steps: nothing else changes.</summary>
    public Situation(Question question, Situation like)
    {
        this.question = question;
        (Rate, Air, Channels, Repeats, Delays, Load, Traffic) = (like.Rate, like.Air, like.Channels, like.Repeats, like.Delays, like.Load, like.Traffic);
        (isChannelOpen, written, interferers, paths) = (like.isChannelOpen, like.written, like.interferers, like.paths);
    }

    public DataRate? Rate { get; }

    public AtRate Air { get; }

    public ChannelTable Channels { get; }

    public RepeatTable Repeats { get; }

    /// <summary>The best delays that were found.</summary>
    public Lazy<(int[] Delays, long Cost, long Bound)> Delays { get; }

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
        undisturbed ??= PowerTable.Of(question.Network, Air, question.Variables, PathOf);
        if (interferers.IsEmpty || (channel ?? (written.Length == 1 ? written[0] : null)) is not { } on)
            return undisturbed;
        if (!powers.TryGetValue(on, out var table))
            powers.Add(on, table = undisturbed.Beside(receiver => interferers.Floor(receiver, on)));
        return table;
    }

    /// <summary>What is known of a hop's path; null where something is missing.</summary>
    public PathFacts? PathOf(JudgedHop judged)
    {
        if (!paths.TryGetValue(judged.Hop, out var facts))
            paths.Add(judged.Hop, facts = PathFacts.Of(question.Network, judged));
        return facts;
    }

    // Both ends of a link must be on one channel: a written one decides.
    private void Tie(Network network, HashSet<Node> open)
    {
        var written = network.Hops.Where(hop => open.Contains(hop.Sender) != open.Contains(hop.Receiver)).Select(hop => open.Contains(hop.Sender) ? hop.Receiver : hop.Sender)
            .Where(node => node.Air.ChosenChannel is not null).GroupBy(node => node.Air.Channel!.Place).Select(same => same.First());
        foreach (var node in written.OrderBy(node => node.Name, Text.NaturalOrder.Instance))
            Channels.Tie(node);
    }

    // RL4203's question: an address that is written for a receiver on an open channel and for another whose channel is written.
    private void KeepApart(HashSet<Node> open)
    {
        var listeners = Air.Plan.Nodes.SelectMany(plan => plan.Pipes.Where(pipe => pipe is { Acknowledges: true, Address: not null }).Select(pipe => (plan.Node, Address: pipe.Address!)));
        foreach (var same in listeners.GroupBy(one => one.Address).Where(same => same.Any(one => open.Contains(one.Node))))
        {
            foreach (var (node, address) in same.Where(one => one.Node.Air.ChosenChannel is not null && same.Any(other => open.Contains(other.Node) && other.Node.Air.ChosenRate == one.Node.Air.ChosenRate))
                .GroupBy(one => one.Node.Air.Channel!.Place).Select(all => all.First()))
            {
                Channels.KeepFrom(node, address);
            }
        }
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
