using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4204: several nodes send to one pipe with acknowledgement, and two packets in a row may look like one and its copy.</summary>
public sealed class PacketsTakenForCopies() : Rule(new(
    "RL4204", Severity.Warning, "Shared pipe, and no count that tells packets apart",
    "a packet with the same 2-bit PID and the same CRC as the last one is acknowledged and dropped (nRF24L01+ Product Specification 1.0, 7.3.3.2)", "0.1")
{
    Silences = ["RL5402", "RL6204"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        var told = new HashSet<string>(StringComparer.Ordinal);
        foreach (var shared in SharedPipes.Payloads(network))
        {
            if (!shared.IsAcknowledged || shared.Has("sequence") || !told.Add(shared.Payload.Name))
                continue;
            yield return At(
                shared.Hops[0], shared.Payload.NamePlace,
                $"{shared.Senders()} send `{shared.Payload.Name}` with acknowledgement to pipe {shared.Pipe.Number} of `{shared.Receiver.Label}`, and packets of equal content are told apart by 2 bits alone: the chip takes some for copies and drops them",
                $"add a field `sequence: uint8` that each sender counts up",
                shared.WithFields(network, "sequence") is { } edit ? [Offer("Add sequence; packets get longer", [edit])] : []) with
            { Subject = shared.Payload, Related = shared.Links };
        }
    }
}
