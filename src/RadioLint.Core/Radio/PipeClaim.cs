using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Radio;

/// <summary>Paths that need one pipe at their receiver.</summary>
internal sealed class PipeClaim
{
    private readonly List<Path> paths = [];

    private PipeClaim(string key) => Key = key;

    public string Key { get; }

    public IReadOnlyList<Path> Members => paths;

    public WrittenAddress? Written { get; private set; }

    public int? WrittenPipe { get; private set; }

    public Link? Broadcast { get; private set; }

    public Address? Address { get; set; }

    public int? Pipe { get; set; }

    /// <summary>Paths by the key that a caller gives them, split further where address or pipe are written; ordered by key.</summary>
    public static List<PipeClaim> Group(IEnumerable<Path> incoming, Func<Path, string> keyOf)
    {
        var claims = new Dictionary<string, PipeClaim>(StringComparer.Ordinal);
        foreach (var path in incoming)
        {
            var link = path.Link;
            var (address, pipe) = (link.Address?.Value, link.Pipe?.Value.Number);
            var key = link.IsBroadcast ? $"broadcast {link.Name}" : keyOf(path);
            // The same written address is one pipe, whoever sends to it.
            var identity = address is not null ? $"address {address.Address}" : pipe is not null ? FormattableString.Invariant($"pipe {pipe}") : key;
            if (!claims.TryGetValue(identity, out var claim))
                claims.Add(identity, claim = new(key));
            claim.paths.Add(path);
            claim.Written ??= address;
            claim.WrittenPipe ??= pipe is >= 0 and <= 5 ? pipe : null;
            claim.Broadcast ??= link.IsBroadcast ? link : null;
        }
        return [.. claims.Values.OrderBy(claim => claim.Key, NaturalOrder.Instance).ThenBy(claim => claim.Written?.Address.ToString(), StringComparer.Ordinal)];
    }

    public bool HasPrefix(ImmutableArray<byte> prefix) =>
        Address is null || prefix.IsDefault || Address.Prefix.AsSpan().SequenceEqual(prefix.AsSpan());

    /// <summary>Writes address and pipe into the paths and makes the receiver's pipe.</summary>
    public OpenPipe Settle(Node receiver)
    {
        foreach (var path in paths)
        {
            path.Pipe = Pipe;
            path.Address = Address;
            path.IsAddressDerived = Written is null;
        }
        return new(Pipe!.Value, Address, paths[0].Link.Place)
        {
            Acknowledges = receiver.Air.Acknowledge?.Value ?? true,
            FixedLength = PipeLength.Of(receiver.Air.PayloadLength?.Value, paths),
            Paths = ImmutableArray.CreateRange(paths),
        };
    }
}

/// <summary>How long a pipe's packets are.</summary>
internal static class PipeLength
{
    /// <summary>Null for dynamic; else the fixed number of bytes, or the longest payload that arrives.</summary>
    public static int? Of(LengthMode? mode, IReadOnlyCollection<Path> paths) => mode switch
    {
        { Kind: LengthKind.Fixed } fixedLength => fixedLength.Bytes,
        { Kind: LengthKind.Exact } => paths.Select(path => path.Link.Payload?.Size ?? 0).DefaultIfEmpty().Max(),
        _ => null,
    };
}
