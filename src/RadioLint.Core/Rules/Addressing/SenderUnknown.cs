using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4205: several nodes send the same payload to one pipe, and nothing in it says which of them did.</summary>
public sealed class SenderUnknown() : Rule(new(
    "RL4205", Severity.Error, "Shared pipe, and no field that says who sent",
    "a packet carries the receiver's address alone, and the chip tells the pipe (nRF24L01+ Product Specification 1.0, 7.3 and Table 28, RX_P_NO)", "0.1")
{
    Silences = ["RL4204", "RL5402", "RL6204"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        var told = new HashSet<string>(StringComparer.Ordinal);
        foreach (var shared in SharedPipes.Payloads(network))
        {
            if (shared.Has("sender") || !told.Add(shared.Payload.Name))
                continue;
            // With acknowledgement the packets must differ in a count too (RL4204).
            var names = shared.IsAcknowledged && !shared.Has("sequence") ? new[] { "sender", "sequence" } : ["sender"];
            yield return At(
                shared.Hops[0], shared.Payload.NamePlace,
                $"{shared.Senders()} send `{shared.Payload.Name}` to pipe {shared.Pipe.Number} of `{shared.Receiver.Label}`, and no field says which of them did",
                $"add a field `sender: uint8`, which carries the node's number; or give each a pipe of its own while {Pipes(shared)} suffice",
                shared.WithFields(network, names) is { } edit ? [Offer($"Add {string.Join(" and ", names)}; packets get longer", [edit])] : []) with
            { Subject = shared.Payload, Related = shared.Links };
        }
    }

    private static int Pipes(SharedPayload shared) => shared.Receiver.Part?.Pipes.Value ?? 6;
}
