using RadioLint.Facts;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Payloads;

namespace RadioLint.Rules.Links;

/// <summary>RL5307: a message that takes several packets, and packets that do not say which part they are.</summary>
public sealed class MessageWithoutNumbers() : Rule(new(
    "RL5307", Severity.Error, "Message longer than one packet, without numbers",
    "a packet holds 32 bytes (nRF24L01+ Product Specification 1.0, 7.3.4): parts need a field in the role `sequence` that counts them all", "0.1")
{
    Silences = ["RL6204"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var hop in network.DistinctHops)
        {
            if (hop.Link is not { Message: { } message, Payload: { HasKnownSize: true } payload } || MessageParts.Count(message.Value, payload) is not (> 1 and var parts))
                continue;
            var number = payload.Fields.FirstOrDefault(field => field is { Role: "sequence", Kind: FieldKind.Integer });
            if (number is not null && FieldLimits.OfType(number).High + 1 >= parts)
                continue;
            var time = Exchange.IsKnown(hop) ? FormattableString.Invariant($", at least {Exchange.Once(network.Plan, hop) * parts} on air") : "";
            var lack = number is null ? "has no field that numbers them" : FormattableString.Invariant($"counts only to {FieldLimits.OfType(number).High + 1} in `{number.Name}`");
            yield return At(
                hop, message.Place,
                $"a message of {message.Value} bytes takes {parts} packets of {MessageParts.Room(payload)} bytes each{time}, and `{payload.Name}` {lack}",
                number is null ? (FormattableString)$"add `sequence: uint8`, and start each message at 0" : $"use `{(parts > 65_536 ? "uint32" : "uint16")}`, or shorten the message",
                number is null && FurtherField.Last(network, payload, "sequence", "uint8", 1) is { Length: > 0 } edits ? [Offer("Add a sequence number; packets get longer", edits)] : []) with
            { Subject = payload, Related = See(payload.NamePlace, $"the payload is here") };
        }
    }
}
