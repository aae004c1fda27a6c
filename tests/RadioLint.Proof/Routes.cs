namespace Proof;

/// <summary>
/// Addresses and pipes of every hop: as written where written, else a pipe of its own for every sender, 1 to 5 and then 0. Pipes that several senders share
/// without its being written are not judged here.
/// </summary>
internal sealed class Routes
{
    private readonly PlainNetwork network;
    private readonly Dictionary<string, HashSet<byte>> taken = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> broadcasts = new(StringComparer.Ordinal);
    private readonly Dictionary<PlainNode, string> joined = [];

    private Routes(PlainNetwork network, List<PlainHop> hops)
    {
        this.network = network;
        foreach (var link in network.Links.Where(link => link.Address is not null))
            Reserve(link.Address!);
        foreach (var node in network.Nodes.Where(node => node.Pipes is not null))
        {
            foreach (var pipe in node.Pipes!.Where(pipe => pipe.Address is not null))
                Reserve(Whole(node, pipe));
        }
        JoinBroadcasts(hops);
    }

    public static Dictionary<PlainNode, List<PlainOpenPipe>> Of(PlainNetwork network, List<PlainHop> hops)
    {
        var routes = new Routes(network, hops);
        var pipes = network.Nodes.Where(node => node.Pipes is not null).ToDictionary(node => node, node => Own(node, []));
        foreach (var group in hops.Where(hop => !hop.Link.RidesBack).GroupBy(hop => hop.Receiver).OrderBy(group => group.Key.Name, Names.Natural))
            pipes[group.Key] = group.Key.Pipes is null ? routes.Planned(group.Key, [.. group], hops) : Own(group.Key, [.. group]);
        return pipes;
    }

    private static string Key(PlainLink link) => $"broadcast {link.FromText} {link.Payload}";

    private void Reserve(string address)
    {
        if (address.Length > 2)
            Taken(address[..^2]).Add(Convert.ToByte(address[^2..], 16));
    }

    private HashSet<byte> Taken(string prefix) => taken.TryGetValue(prefix, out var set) ? set : taken[prefix] = [];

    // One packet for several: they take the prefix of a common name, and the address is the same at all of them.
    private void JoinBroadcasts(List<PlainHop> hops)
    {
        var links = hops.Where(hop => hop.Link.Broadcasts && hop.Link.Address is null).Select(hop => hop.Link).Distinct().OrderBy(Key, StringComparer.Ordinal).ToList();
        if (links.Count > 1)
            throw new UnjudgedException("several broadcasts");
        foreach (var link in links)
        {
            foreach (var node in link.To)
                joined[node] = Key(link);
            var prefix = Prefix(link.To[0]);
            broadcasts[Key(link)] = Derive(Key(link), prefix, []);
        }
    }

    private byte[] Prefix(PlainNode receiver) => Names.Prefix(network.Name, joined.GetValueOrDefault(receiver, receiver.Name), receiver.Width);

    private string Derive(string key, byte[] prefix, HashSet<byte> here)
    {
        var set = Taken(Convert.ToHexString(prefix));
        var last = Names.Last(network.Name, key, prefix, [.. set, .. here]);
        set.Add(last);
        here.Add(last);
        return Convert.ToHexString([.. prefix, last]);
    }

    private static bool Fits(string address, byte[] prefix) => address[..^2] == Convert.ToHexString(prefix);

    private List<PlainOpenPipe> Planned(PlainNode receiver, List<PlainHop> arriving, List<PlainHop> all)
    {
        var claims = arriving.GroupBy(hop => hop.Link is { Address: null, Pipe: null } ? hop.Link.Broadcasts ? Key(hop.Link) : hop.Sender.Name
                : hop.Link.Address is null ? $"pipe {hop.Link.Pipe}" : $"\0{hop.Link.Address}")
            .Select(hops => new Claim([.. hops])).ToList();
        // The same address with and without its pipe is one; a pipe without its address takes that of another link.
        if (claims.Count > (all.Any(hop => hop.Sender == receiver && hop.IsAcknowledged && !hop.Link.RidesBack) ? 5 : 6))
            throw new UnjudgedException("pipes that are shared");
        if (claims.Any(claim => claim.Hops.Select(hop => hop.Link.Pipe).Distinct().Count(pipe => pipe is not null) > 1)
            || claims.Where(claim => claim.Pipe is not null).GroupBy(claim => claim.Pipe).Any(group => group.Count() > 1))
        {
            throw new UnjudgedException("links that contradict each other");
        }
        var written = claims.Where(claim => claim.Written?.Length == receiver.Width * 2 && claim.Pipe is not 0)
            .OrderBy(claim => claim.Pipe ?? 6).ThenBy(claim => claim.Written, StringComparer.Ordinal).FirstOrDefault();
        var prefix = written is null ? Prefix(receiver) : Convert.FromHexString(written.Written!)[..^1];
        foreach (var claim in claims)
            claim.Address = claim.Written ?? (claim.Hops[0].Link.Broadcasts ? broadcasts[Key(claim.Hops[0].Link)] : null);
        var here = claims.Where(claim => claim.Address is not null).Select(claim => Convert.ToByte(claim.Address![^2..], 16)).ToHashSet();
        var ordered = claims.OrderBy(claim => claim.Name, Names.Natural).ThenBy(claim => claim.Written, StringComparer.Ordinal).ToList();
        foreach (var claim in ordered.Where(claim => claim.Address is null))
            claim.Address = Derive($"{receiver.Name}\n{claim.Name}", prefix, here);
        var free = new SortedSet<int> { 0, 1, 2, 3, 4, 5 };
        free.ExceptWith(claims.Select(claim => claim.Pipe).OfType<int>());
        foreach (var claim in ordered.Where(claim => claim.Pipe is null).OrderBy(claim => Fits(claim.Address!, prefix) ? 0 : 1))
        {
            claim.Pipe = Fits(claim.Address!, prefix) ? free.OrderBy(pipe => pipe == 0 ? 6 : pipe).First() : free.Min;
            free.Remove(claim.Pipe.Value);
        }
        foreach (var claim in claims)
            claim.Hops.ForEach(hop => (hop.Address, hop.Pipe) = (claim.Address, claim.Pipe));
        return [.. claims.OrderBy(claim => claim.Pipe).Select(claim => new PlainOpenPipe(
            claim.Pipe!.Value, claim.Address!, receiver.Acknowledge || claim.Hops.Exists(hop => hop.Link.Acknowledge ?? false), Length(receiver.Length, claim.Hops)))];
    }

    // Where a node's own pipes are written, a link goes to the one that has its address.
    private static List<PlainOpenPipe> Own(PlainNode node, List<PlainHop> arriving)
    {
        var open = node.Pipes!.Where(pipe => pipe.Address is not null).ToDictionary(pipe => pipe, pipe => Whole(node, pipe));
        foreach (var hop in arriving)
        {
            hop.Address = hop.Link.Address ?? throw new UnjudgedException("a link without an address to a node with pipes of its own");
            hop.Pipe = open.Where(pipe => pipe.Value == hop.Address).Select(pipe => (int?)pipe.Key.Number).Min();
        }
        return [.. open.Select(pipe => new PlainOpenPipe(
            pipe.Key.Number, pipe.Value, pipe.Key.Acknowledge ?? node.Acknowledge,
            Length(pipe.Key.Length ?? node.Length, [.. arriving.Where(hop => hop.Pipe == pipe.Key.Number)])))];
    }

    // Pipes 2 to 5 have one byte of their own, the rest is pipe 1's (7.6 p40).
    private static string Whole(PlainNode node, PlainPipe pipe) => pipe.Number < 2 ? pipe.Address!
        : node.Pipes!.FirstOrDefault(one => one is { Number: 1, Address: not null })?.Address is { } first ? first[..^2] + pipe.Address![^2..] : pipe.Address!;

    private static int? Length(string mode, List<PlainHop> arriving) => mode switch
    {
        "dynamic" => null,
        "exact" => arriving.Select(hop => hop.Link.Bytes).DefaultIfEmpty().Max(),
        _ => Quantities.Count(mode),
    };

    private sealed class Claim(List<PlainHop> hops)
    {
        public List<PlainHop> Hops => hops;
        public string? Written { get; } = hops.Select(hop => hop.Link.Address).FirstOrDefault(address => address is not null);
        public string? Address { get; set; }
        public int? Pipe { get; set; } = hops.Select(hop => hop.Link.Pipe).FirstOrDefault(pipe => pipe is not null);
        public string Name { get; } = hops[0].Link.Broadcasts ? Key(hops[0].Link)
            : hops[0].Link is { Address: null, Pipe: { } pipe } ? FormattableString.Invariant($"pipe {pipe}") : hops[0].Sender.Name;
    }
}
