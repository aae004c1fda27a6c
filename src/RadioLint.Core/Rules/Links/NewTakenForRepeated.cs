using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Payloads;

namespace RadioLint.Rules.Links;

/// <summary>RL5402: packets that are often the same, so that the chip takes a new one for a repetition.</summary>
public sealed class NewTakenForRepeated() : Rule(new(
    "RL5402", Severity.Warning, "New packet taken for a repetition",
    "a packet with the 2-bit PID and the CRC of the last one is dropped as its repetition (nRF24L01+ Product Specification 1.0, 7.3.3.2)", "0.1")
{
    Silences = ["RL6204"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var payload in network.Payloads)
        {
            if (!payload.HasKnownSize || payload.Fields.IsEmpty || !payload.Fields.All(IsOftenTheSame) || NoSequenceNumber.IsSharedAndAcknowledged(network, payload)
                || network.HopsOf(payload).FirstOrDefault(hop => hop.IsAcknowledged && !hop.Link.RidesInAcknowledgement) is not { } hop)
            {
                continue;
            }
            yield return At(
                hop, payload.NamePlace,
                $"`{payload.Name}` is often the same twice: after 3 lost packets, or a restart of `{hop.Sender.Label}`, the radio of `{hop.Receiver.Label}` drops a new one as a repetition",
                $"add `sequence: uint8`, so that no two in a row are equal",
                FurtherField.Last(network, payload, "sequence", "uint8", 1) is { Length: > 0 } edits ? [Offer("Add a sequence number; packets get longer", edits)] : []) with
            { Subject = payload, Related = See(hop.Link.Place, $"it is sent here") };
        }
    }

    // A reading differs from the one before as a rule; what has few values does not.
    private static bool IsOftenTheSame(Field field) =>
        field.Role != "sequence" && (field.Constant is not null || field.Role is not null || field.Kind is FieldKind.Bits or FieldKind.Choice);
}
