using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>An address that the manifest writes, on a link or on a pipe of a node's own.</summary>
/// <param name="Owner">Whose receiver it is.</param>
/// <param name="Hop">The first hop of the link; null on a pipe.</param>
/// <param name="Pipe">The pipe; null on a link.</param>
internal sealed record WrittenPlace(Address Address, Place Place, Node Owner, Hop? Hop, OwnPipe? Pipe)
{
    public WrittenAddress Spelling => Hop is not null ? Hop.Link.Address!.Value : Pipe!.Address!.Value;

    public string Where => Hop is not null ? $"the link from {Hop.Label}" : FormattableString.Invariant($"pipe {Pipe!.Number} of {Owner.Label}");
}

/// <summary>All addresses that the manifest writes, each with the places that write it.</summary>
internal static class WrittenAddresses
{
    /// <summary>In the order of links, then of nodes; pipes 2 to 5 are completed from pipe 1.</summary>
    public static IEnumerable<IReadOnlyList<WrittenPlace>> Of(Network network) =>
        OnLinks(network).Concat(OnPipes(network)).GroupBy(written => written.Address).Select(group => group.ToList());

    /// <summary>Those of them with something wrong. Pipes 2 to 5 take their bytes from pipe 1: what is wrong there is said there.</summary>
    public static IEnumerable<IReadOnlyList<WrittenPlace>> Wrong(Network network, Func<WrittenPlace, bool> isWrong)
    {
        var said = new HashSet<Node>();
        foreach (var places in Of(network).Where(places => isWrong(places[0])))
        {
            if (places.All(place => place.Pipe is { Number: > 1 } && said.Contains(place.Owner)))
                continue;
            said.UnionWith(places.Where(place => place.Pipe is { Number: 1 }).Select(place => place.Owner));
            yield return places;
        }
    }

    /// <summary>A finding about an address, with its other places and the generated one as an offer.</summary>
    public static Finding About(Network network, IReadOnlyList<WrittenPlace> places, Finding finding) => finding with
    {
        Subject = places[0].Address,
        LinkName = places[0].Hop?.Link.Name,
        Related = Others(places),
        Fixes = Generated(network, places),
    };

    public static ImmutableArray<RelatedPlace> Others(IReadOnlyList<WrittenPlace> places) =>
        ImmutableArray.CreateRange(places.Skip(1).Select(other => new RelatedPlace(other.Place, $"also on {other.Where}")));

    /// <summary>
    /// The address that would be derived, at all its places at once; empty where the other pipes of the receiver hang on the old one.
    /// </summary>
    public static ImmutableArray<Fix> Generated(Network network, IReadOnlyList<WrittenPlace> places)
    {
        var (first, width) = (places[0], places[0].Address.Width);
        if (width is < Address.Narrowest or > Address.Widest || places.Any(place => !IsPlain(place)) || Siblings(network, first).Any())
            return ImmutableArray<Fix>.Empty;
        var fresh = Fresh(network, first.Owner, first.Hop?.Sender.Name ?? "pipe", width);
        return fresh is null
            ? ImmutableArray<Fix>.Empty
            : ImmutableArray.Create(new Fix(
                FixGrade.Offered, $"Use the generated address {fresh}",
                ImmutableArray.CreateRange(places.Select(place => place.Place).Distinct().Select(place => Edit.Value(place, $"{fresh}")))));
    }

    /// <summary>The address that would be derived for a sender at a receiver, clear of what the receiver has; null for widths that no radio has.</summary>
    public static Address? Fresh(Network network, Node receiver, string sender, int width)
    {
        if (width is < Address.Narrowest or > Address.Widest)
            return null;
        var name = network.Name?.Value ?? "";
        var prefix = DerivedAddresses.Prefix(name, receiver.Name, width);
        var taken = network.Plan.Of(receiver).Pipes.Select(pipe => pipe.Address?.LowByte).ToList();
        return DerivedAddresses.LowByte(name, $"{receiver.Name}\n{sender}", prefix, low => taken.Contains(low)) is { } free ? new(prefix.Add(free)) : null;
    }

    /// <summary>The next last byte that none of the receiver's pipes has.</summary>
    public static byte NextFree(Network network, Node receiver, byte after)
    {
        var taken = network.Plan.Of(receiver).Pipes.Select(pipe => pipe.Address?.LowByte).ToList();
        var free = after;
        do
            free++;
        while (taken.Contains(free));
        return free;
    }

    private static IEnumerable<WrittenPlace> OnLinks(Network network)
    {
        var seen = new HashSet<Link>();
        foreach (var hop in network.Hops)
        {
            if (hop.Link.Address is { } written && seen.Add(hop.Link) && written.Value.Address.Width > 0)
                yield return new(written.Value.Address, written.Place, hop.Receiver, hop, null);
        }
    }

    private static IEnumerable<WrittenPlace> OnPipes(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.OwnPipes is not { } own)
                continue;
            foreach (var pipe in own.Where(pipe => !pipe.IsClosed))
            {
                if (pipe.Address is { } written && OwnPipes.FullAddress(pipe, own) is { } full)
                    yield return new(full, written.Place, node, null, pipe);
            }
        }
    }

    // Written as 0x..., and on a pipe that no other takes its bytes from.
    private static bool IsPlain(WrittenPlace written) =>
        written.Spelling.Form is AddressForm.Digits
        && (written.Pipe is null || written.Pipe.Number == 0
            || (written.Pipe.Number == 1 && !written.Owner.OwnPipes!.Value.Any(other => other.Number > 1 && !other.IsClosed)));

    private static IEnumerable<Hop> Siblings(Network network, WrittenPlace first) => network.Plan.Of(first.Owner).Receives
        .Where(hop => hop.Link.Address?.Value.Address is { } other && !other.Equals(first.Address) && other.Width == first.Address.Width
            && other.Prefix.AsSpan().SequenceEqual(first.Address.Prefix.AsSpan()));
}
