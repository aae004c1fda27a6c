namespace Proof;

/// <summary>A network's hops with their addresses and pipes, and what every node makes of them.</summary>
public sealed class Plan
{
    private readonly List<PlainHop> hops;
    private readonly Dictionary<PlainNode, List<PlainOpenPipe>> pipes;
    private readonly Dictionary<PlainNode, int> delays;

    private Plan(PlainNetwork network)
    {
        Network = network;
        hops = [.. network.Links.SelectMany(link => link.From.SelectMany(sender => link.To.Where(to => to != sender).Select(to => new PlainHop(link, sender, to))))];
        foreach (var back in hops.Where(hop => hop.Link.RidesBack))
        {
            back.Carrier = hops.Find(hop => !hop.Link.RidesBack && hop.Sender == back.Receiver && hop.Receiver == back.Sender);
            back.Carrier?.Riders.Add(back);
        }
        pipes = Routes.Of(network, hops);
        delays = Repeats.Of(hops);
    }

    public PlainNetwork Network { get; }

    /// <summary>The expectations of every node, by name.</summary>
    public static Dictionary<string, Expected> Read(string manifest)
    {
        var plan = new Plan(Manifest.Read(manifest));
        return plan.Network.Nodes.ToDictionary(node => node.Name, node => Expected.Of(plan.Of(node)), StringComparer.Ordinal);
    }

    private PlainNodePlan Of(PlainNode node) => new(
        node,
        [
            .. hops.Where(hop => hop.Sender == node && !hop.Link.RidesBack)
                .OrderBy(hop => hop.Link.Broadcasts).ThenBy(hop => !hop.IsAcknowledged).ThenBy(hop => hop.Receiver.Name, Names.Natural).ThenBy(hop => hop.Link.Payload, StringComparer.Ordinal),
        ],
        [.. hops.Where(hop => hop.Receiver == node && !hop.Link.RidesBack)],
        [.. hops.Where(hop => hop.Sender == node && hop.Link.RidesBack)],
        pipes.GetValueOrDefault(node, []), delays.TryGetValue(node, out var delay) ? delay : null);
}

/// <summary>One node's part. Conditions are those of the data sheet for what the node does on the air.</summary>
/// <param name="Sends">Its packets, the one that the image is set up for first.</param>
/// <param name="Returns">What it puts into acknowledgements.</param>
internal sealed record PlainNodePlan(
    PlainNode Node, List<PlainHop> Sends, List<PlainHop> Receives, List<PlainHop> Returns, List<PlainOpenPipe> Pipes, int? Delay)
{
    public bool Listens => Pipes.Count > 0;
    public bool WantsAnswers => Sends.Exists(hop => hop.IsAcknowledged);

    public bool ClosesPipe0 => Node.Pipes?.Any(pipe => pipe is { Number: 0, Address: null }) ?? false;
    public PlainOpenPipe? OwnPipe0 => Pipes.Find(pipe => pipe.Number == 0);
}
