using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Readback;

namespace RadioLint.Rules.Observed;

/// <summary>RL6901: a packet that has come is not laid out as the manifest says.</summary>
public static class PacketDoesNotFit
{
    public static readonly Descriptor Rule = new(
        "RL6901", Severity.Error, "Packet does not fit its layout",
        "length, constants, choices and declared ranges of the payloads planned for the pipe (own rule)", "0.1");

    /// <summary>About the first packet of a kind.</summary>
    /// <param name="payload">The payload that is planned there; null when none is.</param>
    /// <param name="count">How many packets have the same fault.</param>
    public static Finding At(Node node, ReportedPacket packet, Payload? payload, string fault, int count) =>
        new(
            Rule, packet.Place,
            FormattableString.Invariant($"packet on pipe {packet.Pipe} of `{node.Name}`: {fault}{(count == 1 ? "" : FormattableString.Invariant($" ({count} packets)"))}"),
            payload is null ? "look who sends to this pipe, or plan the link" : $"build the sender with the header of this manifest and let it pack `{payload.Name}` with the function there; never send a struct as it lies in memory")
        {
            NodeNames = ImmutableArray.Create(node.Name),
            Related = payload is null ? ImmutableArray<RelatedPlace>.Empty : ImmutableArray.Create(new RelatedPlace(payload.NamePlace, $"`{payload.Name}` is laid out here")),
        };
}
