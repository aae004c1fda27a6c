using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Radio;

/// <summary>
/// Gives every hop an address and a pipe at its receiver: as written where written, else a pipe of its own while the pipes
/// suffice, else one for each group of senders. Works from names, so the order of the manifest does not matter.
/// </summary>
internal sealed class PipePlanner
{
    private readonly string network;
    private readonly ImmutableArray<Hop> hops;
    private readonly Dictionary<Node, List<Hop>> arriving = [];
    private readonly HashSet<Node> acknowledgedSenders;
    private readonly Dictionary<Node, string> sharedPrefix = [];
    private readonly Dictionary<string, HashSet<byte>> takenLowBytes = new(StringComparer.Ordinal);

    private PipePlanner(string network, ImmutableArray<Hop> hops)
    {
        this.network = network;
        this.hops = hops;
        foreach (var hop in hops)
        {
            if (hop.Link.RidesInAcknowledgement)
                continue;
            if (!arriving.TryGetValue(hop.Receiver, out var list))
                arriving.Add(hop.Receiver, list = []);
            list.Add(hop);
        }
        acknowledgedSenders = [.. hops.Where(hop => hop.IsAcknowledged && !hop.Link.RidesInAcknowledgement).Select(hop => hop.Sender)];
    }

    /// <summary>Sets address and pipe of every hop and returns the receive pipes of every receiver.</summary>
    public static Dictionary<Node, ImmutableArray<OpenPipe>> Plan(string network, ImmutableArray<Node> nodes, ImmutableArray<Hop> hops)
    {
        var planner = new PipePlanner(network, hops);
        planner.ReserveWritten(nodes);
        planner.JoinBroadcastReceivers();
        var pipes = new Dictionary<Node, ImmutableArray<OpenPipe>>();
        // A broadcast's address must be the same for all: settle those before the receivers' own.
        var broadcasts = planner.BroadcastAddresses();
        foreach (var receiver in planner.arriving.Keys.OrderBy(node => node.Name, NaturalOrder.Instance))
            pipes.Add(receiver, planner.PlanReceiver(receiver, planner.arriving[receiver], broadcasts));
        return pipes;
    }

    // What somebody has written is never derived for somebody else.
    private void ReserveWritten(ImmutableArray<Node> nodes)
    {
        foreach (var link in hops.Select(hop => hop.Link).Distinct())
            Reserve(link.Address?.Value.Address);
        foreach (var own in nodes.Select(node => node.OwnPipes).OfType<ImmutableArray<OwnPipe>>())
        {
            foreach (var pipe in own)
                Reserve(OwnPipes.FullAddress(pipe, own));
        }
    }

    private void Reserve(Address? address)
    {
        if (address is { Width: > 1 })
            Taken(address.Prefix).Add(address.LowByte);
    }

    private HashSet<byte> Taken(ImmutableArray<byte> prefix)
    {
        var pool = new Address(prefix).ToString();
        if (!takenLowBytes.TryGetValue(pool, out var taken))
            takenLowBytes.Add(pool, taken = []);
        return taken;
    }

    // Receivers of one broadcast must share a prefix, or the broadcast would cost each of them pipe 0.
    private void JoinBroadcastReceivers()
    {
        foreach (var link in Broadcasts().Where(link => link.Address is null))
        {
            var owner = PipeClaim.BroadcastKey(link);
            var joined = link.To.Select(node => sharedPrefix.TryGetValue(node, out var known) ? known : owner).Distinct().ToList();
            var smallest = joined.Append(owner).OrderBy(name => name, StringComparer.Ordinal).First();
            foreach (var node in sharedPrefix.Keys.Where(node => joined.Contains(sharedPrefix[node], StringComparer.Ordinal)).ToList())
                sharedPrefix[node] = smallest;
            foreach (var node in link.To)
                sharedPrefix[node] = smallest;
        }
    }

    private IEnumerable<Link> Broadcasts() => hops.Where(hop => hop.Link.IsBroadcast).Select(hop => hop.Link).Distinct()
        .OrderBy(PipeClaim.BroadcastKey, StringComparer.Ordinal).ThenBy(link => link.Name, StringComparer.Ordinal);

    private Dictionary<Link, Address?> BroadcastAddresses()
    {
        var addresses = new Dictionary<Link, Address?>();
        foreach (var link in Broadcasts().Where(link => link.Address is null))
        {
            var receiver = link.To.FirstOrDefault();
            addresses[link] = receiver is null ? null : Derive(PipeClaim.BroadcastKey(link), PrefixOf(receiver, []), []);
        }
        return addresses;
    }

    private ImmutableArray<OpenPipe> PlanReceiver(Node receiver, List<Hop> incoming, Dictionary<Link, Address?> broadcasts)
    {
        if (receiver.OwnPipes is { } own)
            return OwnPipes.Assign(receiver, own, incoming, broadcasts);
        var sends = acknowledgedSenders.Contains(receiver);
        var claims = Claims(incoming, sends ? 5 : 6);
        var prefix = PrefixOf(receiver, claims);
        foreach (var claim in claims)
            claim.Address = claim.Written ?? (claim.Broadcast is { } link ? broadcasts[link] : null);
        // All six must differ in the last byte, even pipe 0, whose other bytes are its own (7.6 p39).
        var here = new HashSet<byte>(claims.Select(claim => claim.Address).OfType<Address>().Where(address => address.Width > 0).Select(address => address.LowByte));
        foreach (var claim in claims.Where(claim => claim.Address is null && claim.Broadcast is null))
        {
            claim.Address = Derive($"{receiver.Name}\n{claim.Key}", prefix, here);
            if (claim.Address is { } derived)
                here.Add(derived.LowByte);
        }
        GivePipes(claims, prefix);
        foreach (var claim in claims)
            claim.Settle();
        return ImmutableArray.CreateRange(claims.Where(claim => claim.Pipe is not null).OrderBy(claim => claim.Pipe).Select(claim => claim.Open(receiver)));
    }

    private static List<PipeClaim> Claims(List<Hop> incoming, int available)
    {
        // A hub of many senders need not sort them all to learn that they must share.
        var senders = incoming.Where(hop => hop.Link.Address is null && hop.Link.Pipe is null).Select(hop => hop.Sender).Distinct().Take(available + 1).Count();
        if (senders <= available)
        {
            var own = PipeClaim.Group(incoming, hop => hop.Link.Pipe?.Value.Own == false ? Shared(hop) : Own(hop));
            if (own.Count <= available)
                return own;
        }
        return PipeClaim.Group(incoming, hop => hop.Link.Pipe?.Value.Own == true ? Own(hop) : Shared(hop));

        static string Own(Hop hop) => hop.Sender.Name;
        static string Shared(Hop hop) => hop.Sender.Entry;
    }

    // Pipes 1 to 5 share all bytes but the last: a written address decides for the others, else the receiver's name.
    private ImmutableArray<byte> PrefixOf(Node receiver, IReadOnlyList<PipeClaim> claims)
    {
        if (receiver.Air.AddressWidth is not { Value: >= Address.Narrowest and <= Address.Widest and var width })
            return default;
        var written = claims
            .Where(claim => claim.Written?.Width == width && claim.WrittenPipe is not 0)
            .OrderBy(claim => claim.WrittenPipe ?? 6).ThenBy(claim => claim.Written!.ToString(), StringComparer.Ordinal)
            .FirstOrDefault();
        return written?.Written!.Prefix
            ?? DerivedAddresses.Prefix(network, sharedPrefix.TryGetValue(receiver, out var owner) ? owner : receiver.Name, width);
    }

    private Address? Derive(string key, ImmutableArray<byte> prefix, HashSet<byte> here)
    {
        if (prefix.IsDefault)
            return null;
        var taken = Taken(prefix);
        if (DerivedAddresses.LowByte(network, key, prefix, low => taken.Contains(low) || here.Contains(low)) is not { } free)
            return null;
        taken.Add(free);
        return new(prefix.Add(free));
    }

    private static void GivePipes(List<PipeClaim> claims, ImmutableArray<byte> prefix)
    {
        var free = new SortedSet<int> { 0, 1, 2, 3, 4, 5 };
        // One pipe holds one address: of links that want it for two, the later goes without.
        foreach (var claim in claims.Where(claim => claim.WrittenPipe is not null))
            claim.Pipe = free.Remove(claim.WrittenPipe!.Value) ? claim.WrittenPipe : null;
        foreach (var claim in claims.Where(claim => claim.WrittenPipe is null).OrderBy(claim => claim.HasPrefix(prefix) ? 0 : 1))
        {
            // Pipe 0 alone has an address of its own; it is also the one that a sender's acknowledgements need, so it goes last.
            var wanted = claim.HasPrefix(prefix) ? free.Where(pipe => pipe > 0).Concat(free.Where(pipe => pipe == 0)) : free;
            claim.Pipe = wanted.Cast<int?>().FirstOrDefault();
            if (claim.Pipe is { } taken)
                free.Remove(taken);
        }
    }
}
