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

    public WrittenAddress? Written { get; private set; }

    public int? WrittenPipe { get; private set; }

    public Link? Broadcast { get; private set; }

    public Address? Address { get; set; }

    public int? Pipe { get; set; }

    /// <summary>Hops by the key that a caller gives them, split further where address or pipe are written; ordered by key.</summary>
    public static List<PipeClaim> Group(IEnumerable<Hop> incoming, Func<Hop, string> keyOf)
    {
        var claims = new Dictionary<string, PipeClaim>(StringComparer.Ordinal);
        foreach (var hop in incoming)
        {
            var link = hop.Link;
            var (address, pipe) = (link.Address?.Value, link.Pipe?.Value.Number);
            var key = link.IsBroadcast ? $"broadcast {link.Name}" : keyOf(hop);
            // The same written address is one pipe, whoever sends to it.
            var identity = address is not null ? $"address {address.Address}" : pipe is not null ? FormattableString.Invariant($"pipe {pipe}") : key;
            if (!claims.TryGetValue(identity, out var claim))
                claims.Add(identity, claim = new(key));
            claim.hops.Add(hop);
            claim.Written ??= address;
            claim.WrittenPipe ??= pipe is >= 0 and <= 5 ? pipe : null;
            claim.Broadcast ??= link.IsBroadcast ? link : null;
        }
        return [.. claims.Values.OrderBy(claim => claim.Key, NaturalOrder.Instance).ThenBy(claim => claim.Written?.Address.ToString(), StringComparer.Ordinal)];
    }

    public bool HasPrefix(ImmutableArray<byte> prefix) =>
        Address is null || prefix.IsDefault || Address.Prefix.AsSpan().SequenceEqual(prefix.AsSpan());

    /// <summary>Writes address and pipe into the hops and makes the receiver's pipe.</summary>
    public OpenPipe Settle(Node receiver)
    {
        foreach (var hop in hops)
        {
            hop.Pipe = Pipe;
            hop.Address = Address;
            hop.IsAddressDerived = Written is null;
        }
        return new(Pipe!.Value, Address, hops[0].Link.Place)
        {
            Acknowledges = receiver.Air.Acknowledge?.Value ?? true,
            FixedLength = PipeLength.Of(receiver.Air.PayloadLength?.Value, hops),
            Hops = ImmutableArray.CreateRange(hops),
        };
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
