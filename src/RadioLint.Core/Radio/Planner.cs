using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Radio;

/// <summary>From nodes and hops to the plan of every radio.</summary>
internal static class Planner
{
    public static RadioPlan Plan(string network, ImmutableArray<Node> nodes, ImmutableArray<Hop> hops)
    {
        JoinRiders(hops);
        var pipes = PipePlanner.Plan(network, nodes, hops);
        var retries = RetryPlanner.Plan(hops);
        var (sends, receives, returns) = (By(hops, p => p.Sender, rides: false), By(hops, p => p.Receiver, rides: false), By(hops, p => p.Sender, rides: true));
        var plans = ImmutableArray.CreateBuilder<NodePlan>(nodes.Length);
        foreach (var node in nodes)
        {
            var plan = new NodePlan
            {
                Node = node,
                Sends = InSendingOrder(sends, node),
                Receives = receives.TryGetValue(node, out var arriving) ? ImmutableArray.CreateRange(arriving) : ImmutableArray<Hop>.Empty,
                Returns = returns.TryGetValue(node, out var riding) ? ImmutableArray.CreateRange(riding) : ImmutableArray<Hop>.Empty,
                Pipes = pipes.TryGetValue(node, out var open) ? open
                    : node.OwnPipes is { } own ? OwnPipes.Assign(node, own, [], new Dictionary<Link, Address?>())
                    : ImmutableArray<OpenPipe>.Empty,
                Retry = retries.TryGetValue(node, out var retry) ? retry : null,
            };
            plans.Add(plan);
        }
        return new(plans.MoveToImmutable());
    }

    // A payload that rides back belongs to the acknowledgement of the opposite hop.
    private static void JoinRiders(ImmutableArray<Hop> hops)
    {
        if (!hops.Any(hop => hop.Link.RidesInAcknowledgement))
            return;
        var forward = hops.Where(hop => !hop.Link.RidesInAcknowledgement)
            .GroupBy(hop => (hop.Sender, hop.Receiver)).ToDictionary(group => group.Key, group => group.First());
        var riders = new Dictionary<Hop, List<Hop>>();
        foreach (var hop in hops.Where(hop => hop.Link.RidesInAcknowledgement))
        {
            if (!forward.TryGetValue((hop.Receiver, hop.Sender), out var carrier))
                continue;
            hop.Carrier = carrier;
            if (!riders.TryGetValue(carrier, out var list))
                riders.Add(carrier, list = []);
            list.Add(hop);
        }
        foreach (var carrier in riders.Keys)
            carrier.Riders = ImmutableArray.CreateRange(riders[carrier]);
    }

    private static ImmutableArray<Hop> InSendingOrder(Dictionary<Node, List<Hop>> sends, Node node) =>
        !sends.TryGetValue(node, out var own) ? ImmutableArray<Hop>.Empty
            : own.Count == 1 ? ImmutableArray.Create(own[0])
            : ImmutableArray.CreateRange(own
                .OrderBy(hop => hop.Link.IsBroadcast ? 1 : 0).ThenBy(hop => hop.IsAcknowledged ? 0 : 1)
                .ThenBy(hop => hop.Receiver.Name, NaturalOrder.Instance).ThenBy(hop => hop.Link.PayloadName?.Value, StringComparer.Ordinal));

    private static Dictionary<Node, List<Hop>> By(ImmutableArray<Hop> hops, Func<Hop, Node> key, bool rides)
    {
        var by = new Dictionary<Node, List<Hop>>();
        foreach (var hop in hops)
        {
            if (hop.Link.RidesInAcknowledgement != rides)
                continue;
            if (!by.TryGetValue(key(hop), out var list))
                by.Add(key(hop), list = []);
            list.Add(hop);
        }
        return by;
    }
}
