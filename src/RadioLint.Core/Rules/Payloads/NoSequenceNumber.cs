using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6204: packets that may arrive twice, or from several senders, and carry no number.</summary>
public sealed class NoSequenceNumber() : Rule(new(
    "RL6204", Severity.Warning, "No sequence number",
    "a field in the role `sequence` (own rule: a packet whose acknowledgement was lost comes again as a new one, and the chip tells repetitions by its 2-bit PID and the CRC alone, "
    + "nRF24L01+ Product Specification 1.0, 7.3.3.2)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        // A field that did not read may be the one.
        foreach (var payload in network.Payloads.Where(payload => payload is { IsComplete: true, Fields.IsEmpty: false } && payload.Fields.All(field => field.Role != "sequence")))
        {
            if (IsSharedAndAcknowledged(network, payload) || network.HopsOf(payload).Select(hop => Reason(network, hop)).FirstOrDefault(one => one is not null) is not var (hop, reason))
                continue;
            yield return At(
                payload.NamePlace,
                $"`{payload.Name}` has no sequence number, and {reason}",
                $"add `sequence: uint8`, count it up with each new reading and leave it as it is when one is sent again",
                FurtherField.Last(network, payload, "sequence", "uint8", 1) is { Length: > 0 } edits ? [Offer("Add a sequence number; packets get longer", edits)] : []) with
            {
                Subject = payload,
                NodeNames = At(hop, payload.NamePlace, $"", $"").NodeNames,
                LinkName = hop.Link.Name,
                Related = See(hop.Link.Place, $"it is sent here"),
            };
        }
    }

    /// <summary>True where RL4204 speaks of what is missing, with more at stake.</summary>
    public static bool IsSharedAndAcknowledged(Network network, Payload payload) =>
        network.HopsOf(payload).Any(hop => hop.IsAcknowledged && !hop.Link.RidesInAcknowledgement && SharedPipe(network, hop) is not null);

    private static (Hop Hop, string Reason)? Reason(Network network, Hop hop)
    {
        if (hop.Link.RidesInAcknowledgement)
            return null;
        if (hop.IsAcknowledged)
            return (hop, $"`{hop.Sender.Label}` sends it again when an acknowledgement is lost: `{hop.Receiver.Label}` cannot tell that from a new one");
        return SharedPipe(network, hop) is { } pipe
            ? (hop, FormattableString.Invariant($"several nodes send to pipe {pipe.Number} of `{hop.Receiver.Label}`: what is lost, or comes twice, cannot be told"))
            : null;
    }

    private static OpenPipe? SharedPipe(Network network, Hop hop) =>
        network.Plan.Of(hop.Receiver).Pipes.FirstOrDefault(open => open.Number == hop.Pipe) is { } pipe && pipe.Hops.Any(other => other.Sender != hop.Sender) ? pipe : null;
}
