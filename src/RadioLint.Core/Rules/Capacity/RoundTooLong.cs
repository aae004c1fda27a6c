using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Units;

namespace RadioLint.Rules.Capacity;

/// <summary>RL7004: a node that asks the others in turn needs longer for a round than its answers may be old.</summary>
public sealed class RoundTooLong() : Rule(new(
    "RL7004", Severity.Warning, "Polling round longer than the wanted freshness",
    "the link's `within`, against the time to give up at every node in turn (nRF24L01+ Product Specification 1.0, Figures 10 and 17, Table 28)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var link in network.Links)
        {
            if (link is not { Within: { } within, From.Length: 1, To.Length: > 1, IsBroadcast: false, RidesInAcknowledgement: false })
                continue;
            var sender = network.Plan.Of(link.From[0]);
            if (GivingUp(sender, link) is { } each && each * link.To.Length > within.Value)
            {
                var round = each * link.To.Length;
                yield return At(
                    within.Place,
                    $"a round of `{link.FromText}` through {link.To.Length} nodes takes up to {round}, {each} at each that does not answer, {round - within.Value} longer than the {within.Value} wanted",
                    $"allow fewer repetitions, ask fewer nodes in a round, or let them report by themselves") with
                { LinkName = link.Name };
            }
        }
    }

    // SPI time is left out: it is a few bytes.
    private static Duration? GivingUp(NodePlan sender, Link link) =>
        sender is { Retry: { } retry, CheckBytes: { } crc, Node.Air: { ChosenRate: { } rate, AddressWidth.Value: var width } } && sender.Sends.FirstOrDefault(hop => hop.Link == link) is { IsAcknowledged: true } hop
            ? OnAir.GivingUp(rate, width, Math.Min(32, RetryPlanner.SentBytes(hop)), crc, retry.Delay, retry.Limit, sender.Node.Wiring.Clock is { Hertz: > 0 } clock ? clock : Frequency.FromMegahertz(8))
            : null;
}
