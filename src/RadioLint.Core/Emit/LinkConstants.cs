using System.Collections.Immutable;
using RadioLint.Facts;
using RadioLint.Model;

namespace RadioLint.Emit;

/// <summary>A node's links as constants: address bytes in SPI order, pipes, and how long the radio may try.</summary>
internal static class LinkConstants
{
    public static ImmutableArray<ConstantGroup> Of(NodeFacts facts, string upper) =>
    [
        .. facts.Outgoing.Select(link => Outgoing(facts, link, Prefix(upper, "TO", link))),
        .. facts.Answers.Select(link => new ConstantGroup(
            $"Link from {link.Peer}: {link.Payload.Name}, rides back in the acknowledgement",
            [new(Prefix(upper, "FROM", link) + "_PIPE", "0u", "where it arrives")])),
        .. facts.Incoming.Select(link => Incoming(link, Prefix(upper, "FROM", link))),
        .. facts.Returned.Select(link => new ConstantGroup(
            $"Link to {link.Peer}: {link.Payload.Name}, rides back in the acknowledgement",
            link.Hop.Carrier?.Pipe is { } pipe ? [new(Prefix(upper, "TO", link) + "_PIPE", Number(pipe), "whose acknowledgement carries it")] : [])),
    ];

    private static ConstantGroup Outgoing(NodeFacts facts, LinkFact link, string prefix)
    {
        var constants = ImmutableArray.CreateBuilder<Constant>();
        if (link.Hop.Address is { } address)
            constants.Add(Address(prefix, address));
        constants.Add(new(prefix + "_ACKNOWLEDGE", link.Hop.IsAcknowledged ? "1u" : "0u", "1 yes, 0 no"));
        if (facts.LongestMicroseconds(link) is { } longest)
            constants.Add(new(prefix + "_LONGEST_US", FormattableString.Invariant($"{longest}uL"), "us until the radio is done or gives up, at most"));
        return new($"Link to {link.Peer}: {link.Payload.Name}{How(link)}", constants.ToImmutable());
    }

    private static ConstantGroup Incoming(LinkFact link, string prefix)
    {
        var constants = ImmutableArray.CreateBuilder<Constant>();
        if (link.Hop.Address is { } address)
            constants.Add(Address(prefix, address));
        if (link.Hop.Pipe is { } pipe)
            constants.Add(new(prefix + "_PIPE", Number(pipe), "where it arrives"));
        return new($"Link from {link.Peer}: {link.Payload.Name}{How(link)}", constants.ToImmutable());
    }

    private static Constant Address(string prefix, Address address) =>
        new(prefix + "_ADDRESS", $"{{ {C.Bytes(address.RegisterBytes)} }}", $"SPI order; on air {address}");

    private static string How(LinkFact link)
    {
        var every = link.Hop.Link.Every is { } period ? $", every {period.Value}" : "";
        return every + (link.Hop.Link.IsBroadcast ? ", to all who listen there" : "");
    }

    private static string Prefix(string upper, string direction, LinkFact link) =>
        $"{upper}_{direction}_{C.Upper(C.Identifier(link.Peer))}_{C.Upper(C.Identifier(link.Payload.Name))}";

    private static string Number(int value) => C.Unsigned((ulong)value);
}
