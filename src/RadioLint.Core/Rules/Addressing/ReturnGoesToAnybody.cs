using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4211: a payload waits on a pipe that several nodes send to, and rides back to whichever of them is first.</summary>
public sealed class ReturnGoesToAnybody() : Rule(new(
    "RL4211", Severity.Warning, "Payload in the acknowledgements of a shared pipe",
    "1 sender a pipe: a payload is loaded for a pipe and goes with the next acknowledgement there (nRF24L01+ Product Specification 1.0, 7.4.1 and Table 20, W_ACK_PAYLOAD)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var plan in network.Plan.Nodes.Where(plan => !plan.Returns.IsEmpty).OrderBy(plan => plan.Node.Name, NaturalOrder.Instance))
        {
            foreach (var pipe in SharedPipes.At(plan))
            {
                var senders = pipe.Hops.Select(hop => hop.Sender).Distinct().Count();
                foreach (var rider in pipe.Hops.SelectMany(hop => hop.Riders).GroupBy(rider => rider.Link).Select(riders => riders.First()))
                {
                    yield return At(
                        rider, rider.Link.RidesBack!.Place,
                        $"`{rider.Link.PayloadName?.Value}` for `{rider.Receiver.Name}` waits on pipe {pipe.Number} of `{plan.Node.Label}`, which {senders} nodes send to: it goes to whichever of them sends next",
                        $"give each of them a pipe of its own, or let the payload name the node that it is for and each node check that",
                        Apart(plan, pipe)) with
                    { Related = See(pipe.Hops[0].Link.FromPlace, $"senders of pipe {pipe.Number} are here") };
                }
            }
        }
    }

    // Where only `pipe: shared` holds them together and the pipes suffice; pipe 0 is kept for what the node sends itself.
    private static Fix[] Apart(NodePlan plan, OpenPipe pipe)
    {
        var choices = plan.Receives.Select(hop => hop.Link).Distinct().ToList();
        return choices.TrueForAll(link => link.Address is null && link.Pipe?.Value.Number is null)
            && plan.Receives.Select(hop => hop.Sender).Distinct().Count() < (plan.Node.Part?.Pipes.Value ?? 0)
            && pipe.Hops.Select(hop => hop.Link.Pipe).Distinct().ToList() is var written && written.TrueForAll(choice => choice is { Value.Own: false })
                ? [Offer("Give each a pipe of its own", written.Select(choice => Edit.Value(choice!.Place, "own")))]
                : [];
    }
}
