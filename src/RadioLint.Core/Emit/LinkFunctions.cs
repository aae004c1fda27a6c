using System.Collections.Immutable;
using RadioLint.Facts;
using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Emit;

/// <summary>A node's links as functions on the link layer.</summary>
internal static class LinkFunctions
{
    // FEATURE, EN_DYN_ACK: without it the radio knows no packet that asks for no acknowledgement (D1 Table 28).
    private const byte EnDynAck = 0x01;

    /// <summary>One for each payload and destination.</summary>
    /// <param name="aims">The tables of its destinations; empty for a node with a single one.</param>
    public static ImmutableArray<Sending> Sends(NodeFacts facts, string ident, ImmutableArray<Aim> aims, Func<LinkFact, string> lengthOf)
    {
        var knowsUnasking = ((facts.Image[Registers.Feature]?[0] ?? 0) & EnDynAck) != 0;
        return
        [
            .. facts.Outgoing.Where(link => link.Hop.Address is not null).DistinctBy(NameOf).Select(link => new Sending(
                $"{ident}_send_{NameOf(link)}",
                link.Peer,
                link.Payload.Name,
                aims.IsEmpty ? null : aims[RoleTables.IndexOf(facts, link)].Table.Name,
                link.Hop.IsSentWithoutAcknowledge && knowsUnasking ? "RADIO_WORD_UNASKING" : "RADIO_WORD_ASKING",
                lengthOf(link))),
        ];
    }

    /// <summary>One for each payload that rides back to a sender.</summary>
    public static ImmutableArray<Answering> Answers(NodeFacts facts, string ident, Func<LinkFact, string> lengthOf) =>
    [
        .. facts.Returned.Where(link => link.Hop.Carrier?.Pipe is not null).DistinctBy(NameOf).Select(link => new Answering(
            $"{ident}_answer_{NameOf(link)}", link.Peer, link.Payload.Name,
            $"{C.Upper(ident)}_TO_{C.Upper(NameOf(link))}_PIPE", lengthOf(link))),
    ];

    private static string NameOf(LinkFact link) => $"{C.Identifier(link.Peer)}_{C.Identifier(link.Payload.Name)}";
}
