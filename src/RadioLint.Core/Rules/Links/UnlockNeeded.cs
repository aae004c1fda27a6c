using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Rules.Links;

/// <summary>RL5003: a radio that keeps its features locked after a reset works with one that does not.</summary>
public sealed class UnlockNeeded() : Rule(new(
    "RL5003", Severity.Warning, "Older part among newer ones, with features that it keeps locked",
    "FEATURE and DYNPD of nRF24L01 stay 0 until the command ACTIVATE, and a second one locks them again (nRF24L01 Product Specification 2.0, Table 16)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var hop in network.DistinctHops)
        {
            if (hop.Link.RidesInAcknowledgement || hop is not { Sender.Part: { } sends, Receiver.Part: { } takes } || sends.NeedsUnlock == takes.NeedsUnlock)
                continue;
            var node = sends.NeedsUnlock ? hop.Sender : hop.Receiver;
            if (Feature(network, hop) is not { } feature)
                continue;
            var part = node.Radio.Part!;
            yield return At(
                node, part.Place,
                $"`{node.Label}` has {node.Part!.Name}, which knows nothing of {feature} until it is unlocked with ACTIVATE 0x50 0x73; {(sends.NeedsUnlock ? takes : sends).Name} at the other end needs no such thing",
                $"unlock it once after each power-up: write FEATURE, read it back, and send ACTIVATE only if it reads 0; headers that `emit` writes do so") with
            {
                // What is emitted does it; somebody else's firmware may not.
                Severity = node.IsExternal ? Severity.Warning : Severity.Info,
                LinkName = hop.Link.Name,
                Related = See(hop.Link.Place.FirstLine, $"a link with {feature} is here"),
            };
        }
    }

    private static string? Feature(Network network, Hop hop) =>
        hop.Riders.Length > 0 ? "payloads in acknowledgements"
        : hop.IsSentWithoutAcknowledge && hop.Sender.Part!.NeedsUnlock ? "packets without acknowledgement"
        : hop.Sender.Air.PayloadLength?.Value.Kind is LengthKind.Dynamic || network.Plan.Of(hop.Receiver).Pipes.Any(pipe => pipe.Number == hop.Pipe && pipe.FixedLength is null) ? "dynamic length"
        : null;
}
