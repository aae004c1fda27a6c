using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Radio;

/// <summary>Hops that need one pipe at their receiver.</summary>
internal sealed class PipeClaim
{
    private readonly List<Hop> hops = [];

    private PipeClaim(string key) => Key = key;

    public string Key { get; }

    public IReadOnlyList<Hop> Members => hops;

    public Address? Written { get; private set; }

    public int? WrittenPipe { get; private set; }

    public Link? Broadcast { get; private set; }

    public Address? Address { get; set; }

    public int? Pipe { get; set; }

    /// <summary>How a broadcast is known when its address is derived: by who sends what, so that one more receiver changes nothing.</summary>
    public static string BroadcastKey(Link link) => $"broadcast {link.FromText} {link.PayloadName?.Value}";

    /// <summary>
    /// Hops by the key that a caller gives them, split further where address or pipe are written; ordered by key. The same written
    /// address is one pipe, whoever sends to it, and so is the same written pipe as far as the links do not contradict each other.
    /// </summary>
    public static List<PipeClaim> Group(IReadOnlyCollection<Hop> incoming, Func<Hop, string> keyOf)
    {
        var written = new WrittenPairs(incoming);
        var claims = new Dictionary<string, PipeClaim>(StringComparer.Ordinal);
        foreach (var hop in incoming)
        {
            var (address, pipe) = written.Of(hop.Link);
            // A pipe that is written has an address of its own, whoever may join it later; a broadcast's is the same at all its receivers.
            var key = hop.Link.IsBroadcast ? BroadcastKey(hop.Link)
                : address is null && pipe is not null ? FormattableString.Invariant($"pipe {pipe}")
                : keyOf(hop);
            var identity = address is null && pipe is null ? key
                : FormattableString.Invariant($"written {address} {pipe} {(address is null && hop.Link.IsBroadcast ? key : "")}");
            if (!claims.TryGetValue(identity, out var claim))
                claims.Add(identity, claim = new(key) { Written = address, WrittenPipe = pipe });
            claim.hops.Add(hop);
            claim.Broadcast ??= hop.Link.IsBroadcast ? hop.Link : null;
        }
        return
        [
            .. claims.Values.OrderBy(claim => claim.Key, NaturalOrder.Instance).ThenBy(claim => claim.Written?.ToString(), StringComparer.Ordinal)
                .ThenBy(claim => claim.WrittenPipe),
        ];
    }

    public bool HasPrefix(ImmutableArray<byte> prefix) =>
        Address is null || prefix.IsDefault || Address.Prefix.AsSpan().SequenceEqual(prefix.AsSpan());

    /// <summary>Writes address and pipe into the hops; a claim without a pipe leaves them without one.</summary>
    public void Settle()
    {
        foreach (var hop in hops)
        {
            hop.Pipe = Pipe;
            hop.Address = Address;
            hop.IsAddressDerived = hop.Link.Address is null;
        }
    }

    /// <summary>The receiver's pipe.</summary>
    public OpenPipe Open(Node receiver) => new(Pipe!.Value, Address, hops[0].Link.Place)
    {
        // A link that asks for acknowledgements where the network has none turns them on for its pipe.
        Acknowledges = (receiver.Air.Acknowledge?.Value ?? true) || hops.Exists(hop => hop.Link.Acknowledge?.Value ?? false),
        FixedLength = PipeLength.Of(receiver.Air.PayloadLength?.Value, hops),
        Hops = ImmutableArray.CreateRange(hops),
    };

    // A link may write an address, a pipe or both: what one link writes together, another need not repeat.
    private sealed class WrittenPairs
    {
        private readonly Dictionary<Address, int> pipes = [];
        private readonly Dictionary<int, Address> addresses = [];

        public WrittenPairs(IEnumerable<Hop> incoming)
        {
            foreach (var hop in incoming)
            {
                if (hop.Link is not { Address.Value.Address: { } address, Pipe.Value.Number: { } pipe })
                    continue;
                if (!pipes.TryGetValue(address, out var known) || pipe < known)
                    pipes[address] = pipe;
                if (!addresses.TryGetValue(pipe, out var other) || string.CompareOrdinal($"{address}", $"{other}") < 0)
                    addresses[pipe] = address;
            }
        }

        public (Address? Address, int? Pipe) Of(Link link)
        {
            var (address, pipe) = (link.Address?.Value.Address, link.Pipe?.Value.Number);
            if (address is null)
                return (pipe is { } number && addresses.TryGetValue(number, out var same) ? same : null, pipe);
            return (address, pipe ?? (pipes.TryGetValue(address, out var place) ? place : null));
        }
    }
}

/// <summary>How long a pipe's packets are.</summary>
internal static class PipeLength
{
    /// <summary>Null for dynamic; else the fixed number of bytes, or the longest payload that arrives.</summary>
    public static int? Of(LengthMode? mode, IReadOnlyCollection<Hop> hops) => mode switch
    {
        { Kind: LengthKind.Fixed } fixedLength => fixedLength.Bytes,
        { Kind: LengthKind.Exact } => hops.Select(hop => hop.Link.Payload?.Size ?? 0).DefaultIfEmpty().Max(),
        _ => null,
    };
}
