using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Radio;

/// <summary>From nodes and paths to the plan of every radio.</summary>
internal static class Planner
{
    public static RadioPlan Plan(string network, ImmutableArray<Node> nodes, ImmutableArray<Path> paths)
    {
        JoinRiders(paths);
        var pipes = PipePlanner.Plan(network, paths);
        var retries = RetryPlanner.Plan(paths);
        var (sends, receives, returns) = (By(paths, p => p.Sender, rides: false), By(paths, p => p.Receiver, rides: false), By(paths, p => p.Sender, rides: true));
        var plans = ImmutableArray.CreateBuilder<NodePlan>(nodes.Length);
        foreach (var node in nodes)
        {
            var plan = new NodePlan
            {
                Node = node,
                Sends = InSendingOrder(sends, node),
                Receives = receives.TryGetValue(node, out var arriving) ? ImmutableArray.CreateRange(arriving) : ImmutableArray<Path>.Empty,
                Returns = returns.TryGetValue(node, out var riding) ? ImmutableArray.CreateRange(riding) : ImmutableArray<Path>.Empty,
                Pipes = pipes.TryGetValue(node, out var open) ? open
                    : node.OwnPipes is { } own ? OwnPipes.Assign(node, own, [])
                    : ImmutableArray<OpenPipe>.Empty,
                Retry = retries.TryGetValue(node, out var retry) ? retry : null,
            };
            plan.Image = ImageBuilder.Build(plan);
            plans.Add(plan);
        }
        return new(plans.MoveToImmutable());
    }

    // A payload that rides back belongs to the acknowledgement of the opposite path.
    private static void JoinRiders(ImmutableArray<Path> paths)
    {
        if (!paths.Any(path => path.Link.RidesInAcknowledgement))
            return;
        var forward = paths.Where(path => !path.Link.RidesInAcknowledgement)
            .GroupBy(path => (path.Sender, path.Receiver)).ToDictionary(group => group.Key, group => group.First());
        var riders = new Dictionary<Path, List<Path>>();
        foreach (var path in paths.Where(path => path.Link.RidesInAcknowledgement))
        {
            if (!forward.TryGetValue((path.Receiver, path.Sender), out var carrier))
                continue;
            path.Carrier = carrier;
            if (!riders.TryGetValue(carrier, out var list))
                riders.Add(carrier, list = []);
            list.Add(path);
        }
        foreach (var carrier in riders.Keys)
            carrier.Riders = ImmutableArray.CreateRange(riders[carrier]);
    }

    private static ImmutableArray<Path> InSendingOrder(Dictionary<Node, List<Path>> sends, Node node) =>
        sends.TryGetValue(node, out var own)
            ? ImmutableArray.CreateRange(own
                .OrderBy(path => path.Link.IsBroadcast ? 1 : 0).ThenBy(path => path.IsAcknowledged ? 0 : 1)
                .ThenBy(path => path.Receiver.Name, NaturalOrder.Instance).ThenBy(path => path.Link.PayloadName?.Value, StringComparer.Ordinal))
            : ImmutableArray<Path>.Empty;

    private static Dictionary<Node, List<Path>> By(ImmutableArray<Path> paths, Func<Path, Node> key, bool rides)
    {
        var by = new Dictionary<Node, List<Path>>();
        foreach (var path in paths)
        {
            if (path.Link.RidesInAcknowledgement != rides)
                continue;
            if (!by.TryGetValue(key(path), out var list))
                by.Add(key(path), list = []);
            list.Add(path);
        }
        return by;
    }
}
