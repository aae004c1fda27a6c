using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Links;

/// <summary>RL5303: a node's own pipe 0 is set to fixed lengths while its packets have dynamic ones.</summary>
public sealed class DynamicLengthIncomplete() : Rule(new(
    "RL5303", Severity.Error, "Dynamic length without pipe 0",
    "who sends to a pipe of dynamic length must have bit 0 of DYNPD set (nRF24L01+ Product Specification 1.0, 7.3.4)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.OwnPipes is not { } pipes || node.Air.PayloadLength is not { Value.Kind: LengthKind.Dynamic } sends
                || pipes.FirstOrDefault(pipe => pipe is { Number: 0, IsClosed: false }) is not { PayloadLength: { Value.Kind: not LengthKind.Dynamic } own } pipe0)
            {
                continue;
            }
            var plan = network.Plan.Of(node);
            // Without acknowledgement packets have no length field: RL5304.
            if (plan.Sends.FirstOrDefault(hop => hop.IsAcknowledged || hop.IsSentWithoutAcknowledge) is not { } hop)
                continue;
            var isFree = (pipe0.Acknowledge ?? node.Air.Acknowledge)?.Value != false && plan.Pipes.All(pipe => pipe.Number != 0 || pipe.Hops.IsEmpty);
            yield return At(
                node, own.Place,
                $"`{node.Label}` sends packets of dynamic length to `{hop.Receiver.Label}`, for which bit 0 of DYNPD must be 1; with `{own.Value.InManifest()}` on its pipe 0 it is 0",
                $"use `payload-length: dynamic` on pipe 0, or fixed lengths at both ends of the link",
                isFree ? [Offer("Use dynamic lengths on pipe 0", own.Place, "dynamic")] : []) with
            { Related = See(sends.Place, $"its packets get their length here") };
        }
    }
}
