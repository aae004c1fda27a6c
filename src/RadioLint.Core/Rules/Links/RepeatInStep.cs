using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Links;

/// <summary>RL5105: senders of one receiver wait equally long before they repeat, so that packets that met once meet again.</summary>
public sealed class RepeatInStep() : Rule(new(
    "RL5105", Severity.Warning, "Senders that repeat in step",
    "retry delays 2 packet times apart, and none shorter than a packet (derived: the first repetition then clears the other's packet and repetition); "
    + "an info where the delays up to 4000 us hold no more of that kind (nRF24L01+ Product Specification 1.0, Table 28, ARD)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var plan in network.Plan.Nodes.Where(plan => plan.Receives.Length > 1).OrderBy(plan => plan.Node.Name, NaturalOrder.Instance))
        {
            var senders = Senders(network, plan);
            if (senders.Count < 2)
                continue;
            var classes = RetryClasses.For(senders.Max(sender => sender.Least), senders.Max(sender => sender.Packet));
            var (apart, kept) = (1, senders[0]);
            (Repeater One, Repeater Other)? near = null;
            foreach (var (one, other) in senders.Zip(senders.Skip(1), (one, other) => (one, other)))
            {
                if (AreApart(kept, other))
                    (apart, kept) = (apart + 1, other);
                // A delay that is written is the one that can be mended.
                if (!AreApart(one, other) && (near is null || (IsPlanned(near.Value) && !IsPlanned((one, other)))))
                    near = (one, other);
            }
            if (near is { } pair)
                yield return Judge(plan.Node, pair, senders, classes, apart);
        }
    }

    private Finding Judge(Node receiver, (Repeater One, Repeater Other) near, List<Repeater> senders, ImmutableArray<Duration> classes, int apart)
    {
        var (one, other) = near;
        var written = other.Retry.Written ?? one.Retry.Written;
        var isBetterPossible = written is not null && apart < Math.Min(senders.Count, classes.Length);
        var delays = classes.Length < 2 ? "" : string.Join(", ", classes);
        return At(
            other.Hop, written ?? receiver.NamePlace,
            $"`{one.Hop.Sender.Name}` and `{other.Hop.Sender.Name}` {Difference(one, other)}, and their packets to `{receiver.Label}` of {Longer(one, other)} need {Longer(one, other) * 2} between; up to {OnAir.LongestRetryDelay} there {(classes.Length == 1 ? "is 1 such delay" : FormattableString.Invariant($"are {classes.Length} such delays"))} for {senders.Count} senders",
            isBetterPossible ? (FormattableString)$"use delays of {delays}, or leave the delay out to have them handed out"
                : $"give the senders different `offset`s or a `jitter`, shorter packets or a higher rate",
            isBetterPossible && other.Hop.Sender.Air.Retry.Delay is { Value.Delays.Length: 1 } only && only.Place == written ? [Offer("Have the delays planned", only.Place, "open")] : []) with
        { Severity = isBetterPossible ? Severity.Warning : Severity.Info };
    }

    // By their delays; of equal ones by name.
    private static List<Repeater> Senders(Network network, NodePlan receiver)
    {
        var senders = new List<Repeater>();
        foreach (var hops in receiver.Receives.Where(hop => hop.IsAcknowledged).GroupBy(hop => hop.Sender))
        {
            if (network.Plan.Of(hops.Key) is { Retry: { Limit: > 0 } retry, CheckBytes: { } crc } && hops.Key.Air is { ChosenRate: { } rate, AddressWidth: { } width }
                && RetryPlanner.LeastLegal(hops) is { } least)
            {
                senders.Add(new(hops.First(), retry, least, OnAir.Packet(rate, width.Value, hops.Max(hop => Math.Min(32, RetryPlanner.SentBytes(hop))), crc)));
            }
        }
        return [.. senders.OrderBy(sender => sender.Retry.Delay).ThenBy(sender => sender.Hop.Sender.Name, NaturalOrder.Instance)];
    }

    private static Duration Longer(Repeater one, Repeater other) => one.Packet > other.Packet ? one.Packet : other.Packet;

    private static bool AreApart(Repeater one, Repeater other) => RetryClasses.AreApart(one.Retry.Delay, other.Retry.Delay, Longer(one, other));

    private static bool IsPlanned((Repeater One, Repeater Other) pair) => pair.One.Retry.IsPlanned && pair.Other.Retry.IsPlanned;

    private static string Difference(Repeater one, Repeater other) =>
        one.Retry.Delay == other.Retry.Delay ? $"both repeat after {one.Retry.Delay}" : $"repeat after {one.Retry.Delay} and {other.Retry.Delay}";

    private sealed record Repeater(Hop Hop, RetryPlan Retry, Duration Least, Duration Packet);
}
