using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Rules.Links;

/// <summary>RL5104: repetitions are set where nothing is acknowledged, or acknowledgements are asked for and nothing is ever repeated.</summary>
public sealed class RetriesWithoutAcknowledge() : Rule(new(
    "RL5104", Severity.Warning, "Repetitions and acknowledgement that do not go together",
    "0 repetitions without acknowledgement, 1 to 15 with it (nRF24L01+ Product Specification 1.0, 7.4.2, 7.9 and Table 28, ARC)", "0.1"))
{
    private const int MostRetries = 15;

    public override IEnumerable<Finding> Check(Network network)
    {
        // A line for several senders is idle only if it is so for all of them; the network's is for all senders, those too that have one of their own.
        var senders = network.DistinctNodes.Select(network.Plan.Of).Where(plan => !plan.Sends.IsEmpty && plan.Node.Air.Retry.Limit is not null && IsSpecial(plan.Node.Air.Retry))
            .OrderBy(plan => plan.Node.Name, NaturalOrder.Instance);
        foreach (var alike in senders.GroupBy(plan => Asked(plan.Node)?.Place ?? plan.Node.Air.Retry.Limit!.Place))
        {
            var first = alike.First();
            if (Asked(first.Node) is { } idle && !(IsOfNetwork(network, idle.Place) ? network.Plan.Nodes : alike.AsEnumerable()).Any(plan => plan.SendsAcknowledged))
                yield return Idle(first.Node, idle);
            if (first.Node.Air.Retry.Limit is { Value: 0 } none && alike.FirstOrDefault(plan => plan.SendsAcknowledged) is { } sending)
            {
                var most = MostFor(network, alike);
                yield return At(
                    sending.Node, none.Place,
                    $"`{sending.Node.Label}` asks for acknowledgements and repeats 0 times: a packet that is lost stays lost, and the acknowledgement only says so",
                    $"allow repetitions, up to {most ?? MostRetries}",
                    most is null ? [] : [Offer(FormattableString.Invariant($"Allow {most}; a lost packet is repeated"), none.Place, FormattableString.Invariant($"{most}"))]);
            }
        }
    }

    private static bool IsOfNetwork(Network network, Place place) => network.Air.Retry.Limit?.Place == place || network.Air.Retry.Delay?.Place == place;

    // As many as leave each of them the time that its links have (RL5106).
    private static int? MostFor(Network network, IEnumerable<NodePlan> senders) => senders.SelectMany(plan => plan.Sends).Where(hop => hop.IsAcknowledged)
        .Select(hop => Sending.Of(network, hop) is { } sending ? sending.MostRetries(MostRetries + 1) ?? 0 : MostRetries).Min() is > 0 and var most ? most : null;

    private Finding Idle(Node node, (Place Place, string Off) idle) => At(
        node, idle.Place,
        $"`{node.Label}` is to repeat up to {node.Air.Retry.Limit!.Value} time{(node.Air.Retry.Limit.Value == 1 ? "" : "s")}, but asks for no acknowledgement, so it repeats 0 times",
        $"turn acknowledgement on, or leave `retry` out; a radio without any acknowledgement needs ARC 0",
        Offer($"Write `{idle.Off}`", idle.Place, idle.Off));

    private static bool IsSpecial(Retry retry) => retry is { Limit.Value: not MostRetries } or { Delay.Value.IsOpen: false };

    // What asks for repetitions and is not the default, which may be written too.
    private static (Place Place, string Off)? Asked(Node node) => node.Air.Retry switch
    {
        { Limit.Value: 0 } => null,
        { Limit: { Value: < MostRetries } limit } => (limit.Place, "0"),
        { Delay: { Value.IsOpen: false } delay } => (delay.Place, "open"),
        _ => null,
    };
}
