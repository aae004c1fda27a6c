using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Links;

/// <summary>RL5101: a node sends with acknowledgement, but its own `pipes` turn it off on the pipe that acknowledgements come to.</summary>
public sealed class Pipe0DoesNotAcknowledge() : Rule(new(
    "RL5101", Severity.Error, "Acknowledgement on for sending, off on pipe 0",
    "a sender that waits for acknowledgements needs ENAA_P0 (nRF24L01+ Product Specification 1.0, 7.4.2 and Appendix A)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var plan in network.Plan.Nodes.Where(plan => plan.Node.OwnPipes is not null).OrderBy(plan => plan.Node.Name, NaturalOrder.Instance))
        {
            if (plan.Node.OwnPipes?.FirstOrDefault(pipe => pipe is { Number: 0, IsClosed: false, Acknowledge.Value: false }) is not { Acknowledge: { } off } own)
                continue;
            // A pipe 0 that listens at an address of its own is written anew at each turn: RL4105.
            if (plan.Sends.FirstOrDefault(hop => hop.IsAcknowledged && (own.Address is null || own.Address.Value.Address.Equals(hop.Address))) is not { } sent)
                continue;
            yield return At(
                plan.Node, off.Place,
                $"`{plan.Node.Label}` sends to `{sent.Receiver.Label}` with acknowledgement, but its pipe 0 has it off, so it waits for none",
                $"turn acknowledgement on for pipe 0, or leave pipe 0 out of `pipes`: a sender sets it up as it needs it",
                Offer("Write `true`", off.Place, "true")) with
            { Related = See((sent.Link.Acknowledge ?? plan.Node.Air.Acknowledge) is { IsDefault: false } on ? on.Place : sent.Link.FromPlace, $"it sends with acknowledgement here") };
        }
    }
}
