using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4105: pipe 0 is to listen on a node that needs it for the acknowledgements of its own packets.</summary>
public sealed class Pipe0ListensAndSends() : Rule(new(
    "RL4105", Severity.Warning, "Pipe 0 listens on a node that also sends with acknowledgement",
    "while sending, pipe 0 holds the address that is sent to (nRF24L01+ Product Specification 1.0, Table 28, TX_ADDR)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var plan in network.Plan.Nodes)
        {
            if (plan.Pipes.FirstOrDefault(pipe => pipe.Number == 0) is not { Address: { } held } pipe)
                continue;
            // A pipe 0 that holds the send address listens for acknowledgements, as it should.
            if (plan.Sends.FirstOrDefault(hop => hop.IsAcknowledged && !held.Equals(hop.Address)) is not { } sent)
                continue;
            var stated = pipe.Hops.Select(hop => hop.Link.Pipe).FirstOrDefault(choice => choice is { Value.Number: 0 });
            yield return At(
                plan.Node, plan.Node.OwnPipes is not null ? pipe.Place : stated?.Place ?? plan.Node.NamePlace,
                $"pipe 0 of `{plan.Node.Label}` listens at `{held}`; each time `{plan.Node.Label}` waits for an acknowledgement of `{sent.Receiver.Label}` it must hold `{sent.Address}`, and is deaf to the other",
                $"listen on pipes 1 to 5{(stated is null && plan.Node.OwnPipes is null ? "; let some of its senders share a pipe" : "")}",
                Moved(plan, pipe, stated?.Place)) with
            { Related = See(sent.Link.FromPlace, $"it sends with acknowledgement here") };
        }
    }

    private static Fix[] Moved(NodePlan plan, OpenPipe pipe, Place? stated)
    {
        var taken = plan.Pipes.Select(other => other.Number).ToList();
        if (Enumerable.Range(1, 5).Cast<int?>().FirstOrDefault(number => !taken.Contains(number!.Value)) is not { } free)
            return [];
        var title = FormattableString.Invariant($"Move it to pipe {free}");
        if (stated is { } place && plan.Node.OwnPipes is null)
            return [Offer(title, place, FormattableString.Invariant($"{free}"))];
        // Pipes 2 to 5 could not hold its upper bytes; pipe 1 can if nobody hangs on it.
        var own = plan.Node.OwnPipes?.FirstOrDefault(one => one.Number == 0);
        return own is not null && taken.TrueForAll(number => number == 0) && plan.Node.OwnPipes!.Value.All(one => one.Number != 1)
            ? [Offer(FormattableString.Invariant($"Move it to pipe 1"), own.Key.Place, "1")]
            : [];
    }
}
