using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Spectrum;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>A sender whose packets are acknowledged.</summary>
/// <param name="Delays">That it may wait before a repetition, the shortest first; the one that it has where none may be chosen.</param>
/// <param name="Least">What its acknowledgements need.</param>
/// <param name="Packet">The longest that it sends.</param>
/// <param name="PerSecond">Packets; nothing where the links do not say.</param>
/// <param name="Receivers">By name.</param>
internal sealed record Repeater(
    Node Sender, ImmutableArray<Duration> Delays, bool IsOpen, Duration Least, Duration Packet, Duration Busy, decimal PerSecond, ImmutableArray<Node> Receivers, bool Repeats);

/// <summary>What delays before a repetition cost at one rate: each by itself, and two of them at one receiver.</summary>
internal sealed class RepeatTable
{
    /// <summary>Beyond so many pairs at one receiver delays stay as the senders' names give them.</summary>
    public const int MostSenders = 400;

    private RepeatTable(ImmutableArray<Repeater> senders) => Senders = senders;

    /// <summary>By name.</summary>
    public ImmutableArray<Repeater> Senders { get; }

    /// <summary>Pairs that share a receiver, the lower first, with what it costs when they repeat in step.</summary>
    public List<(int One, int Other, long Cost)> Pairs { get; } = [];

    public static RepeatTable Of(AtRate at, Freedom freedom)
    {
        var sends = at.Hops.Where(hop => hop.IsAcknowledged && !hop.Link.RidesInAcknowledgement).GroupBy(hop => hop.Sender).ToDictionary(group => group.Key, group => group.ToList());
        var byReceiver = at.Hops.Where(hop => hop.IsAcknowledged && !hop.Link.RidesInAcknowledgement).GroupBy(hop => hop.Receiver)
            .OrderBy(group => group.Key.Name, NaturalOrder.Instance).Select(group => (Receiver: group.Key, Senders: group.Select(hop => hop.Sender).Distinct().ToList())).ToList();
        var classes = new Dictionary<Node, ImmutableArray<Duration>>();
        foreach (var (_, senders) in byReceiver)
        {
            var ready = senders.Where(sender => RetryPlanner.LeastLegal(sends[sender]) is not null).ToList();
            if (ready.Count == 0)
                continue;
            var least = ready.Max(sender => RetryPlanner.LeastLegal(sends[sender])!.Value);
            var longest = ready.Max(sender => sends[sender].Max(RetryPlanner.Airtime));
            var kept = senders.Where(sender => !freedom.Delay(sender)).Select(sender => at.Plan.Of(sender).Retry?.Delay).OfType<Duration>();
            var offered = senders.Count > 1 ? Round(RetryClasses.For(least, longest), kept, OnAir.RoundUpToStep(longest * 2)) : ImmutableArray<Duration>.Empty;
            foreach (var sender in ready.Where(sender => !classes.ContainsKey(sender)))
                classes.Add(sender, offered.IsEmpty ? ImmutableArray.Create(RetryPlanner.LeastLegal(sends[sender])!.Value) : offered);
        }
        var tooMany = byReceiver.Exists(group => group.Senders.Count > MostSenders);
        var table = new RepeatTable(ImmutableArray.CreateRange(classes.Keys.OrderBy(sender => sender.Name, NaturalOrder.Instance)
            .Select(sender => One(at, freedom, sender, sends[sender], classes[sender], tooMany)).OfType<Repeater>()));
        if (!tooMany)
            table.Pair(byReceiver.Select(group => group.Senders));
        return table;
    }

    public long Cost(int[] delays)
    {
        var sum = 0L;
        for (var i = 0; i < delays.Length; i++)
            sum += PlanCost.Waiting(Senders[i].Delays[delays[i]], Senders[i].Least);
        foreach (var (one, other, cost) in Pairs)
            sum += AreInStep(one, delays[one], other, delays[other]) ? cost : 0;
        return sum;
    }

    public bool AreInStep(int one, int oneDelay, int other, int otherDelay)
    {
        var (a, b) = (Senders[one], Senders[other]);
        return !RetryClasses.AreApart(a.Delays[oneDelay], b.Delays[otherDelay], a.Packet > b.Packet ? a.Packet : b.Packet);
    }

    // The classes, moved where a delay that stays would lie between two of them: it becomes one itself, unless that leaves fewer.
    private static ImmutableArray<Duration> Round(ImmutableArray<Duration> classes, IEnumerable<Duration> kept, Duration apart)
    {
        if (classes.IsEmpty)
            return classes;
        var stays = kept.Distinct().OrderBy(delay => delay).ToList();
        var round = ImmutableArray.CreateBuilder<Duration>();
        for (var next = classes[0]; next <= OnAir.LongestRetryDelay; next += apart)
        {
            var meets = stays.Find(delay => delay >= next && delay < next + apart);
            if (meets.Nanoseconds > 0 && meets <= OnAir.LongestRetryDelay && meets.Nanoseconds % OnAir.RetryStep.Nanoseconds == 0)
                next = meets;
            round.Add(next);
        }
        return round.Count < classes.Length ? classes : round.ToImmutable();
    }

    private static Repeater? One(AtRate at, Freedom freedom, Node sender, List<Hop> hops, ImmutableArray<Duration> classes, bool tooMany)
    {
        if (at.Plan.Of(sender) is not { Retry: { } retry } plan)
            return null;
        var isOpen = freedom.Delay(sender) && !tooMany;
        var least = RetryPlanner.LeastLegal(hops)!.Value;
        var (busy, often) = (new Duration(0), 0m);
        foreach (var hop in plan.Sends)
        {
            if (Traffic.Busy(plan, hop) is { } once && once > busy)
                busy = once;
            if (Traffic.Rate(hop) is { } rate)
                often += Math.Min(1_000_000, rate.Packets * 1_000_000_000m / rate.Per.Nanoseconds);
        }
        // Where none is short enough RL5106 speaks, and the shortest is the nearest to it.
        if (isOpen && classes.Any(delay => !Patience.Allows(plan, delay)))
            classes = ImmutableArray.CreateRange(classes.Where((delay, i) => i == 0 || Patience.Allows(plan, delay)));
        return new(
            sender, isOpen ? classes : ImmutableArray.Create(retry.Delay), isOpen, least, hops.Max(RetryPlanner.Airtime), busy, often,
            ImmutableArray.CreateRange(hops.Select(hop => hop.Receiver).Distinct().OrderBy(node => node.Name, NaturalOrder.Instance)), retry.Limit > 0);
    }

    private void Pair(IEnumerable<List<Node>> groups)
    {
        var indices = new Dictionary<Node, int>();
        for (var i = 0; i < Senders.Length; i++)
            indices.Add(Senders[i].Sender, i);
        var seen = new HashSet<(int, int)>();
        foreach (var group in groups)
        {
            var members = group.Where(sender => indices.TryGetValue(sender, out var i) && Senders[i].Repeats).Select(sender => indices[sender]).OrderBy(i => i).ToList();
            for (var i = 0; i < members.Count; i++)
            {
                for (var j = i + 1; j < members.Count; j++)
                {
                    if (seen.Add((members[i], members[j])))
                        Pairs.Add((members[i], members[j], InStep(Senders[members[i]], Senders[members[j]])));
                }
            }
        }
    }

    private static long InStep(Repeater one, Repeater other) =>
        PlanCost.SameClass + (one.Sender.Entry == other.Sender.Entry ? PlanCost.SameGroup : 0) + Meetings(one, other);

    /// <summary>How often packets of two senders meet, in millionths of the packets of either: the sum of their rates times the time in which they do.</summary>
    public static long Meetings(Repeater one, Repeater other) => (long)decimal.Round(
        Math.Min(1_000_000m, (one.PerSecond + other.PerSecond) * (one.Busy + other.Busy).Nanoseconds / 1_000m));
}
