using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4103: a node would have to listen at more addresses than its radio has pipes.</summary>
public sealed class MoreAddressesThanPipes() : Rule(new(
    "RL4103", Severity.Error, "More receive addresses than pipes",
    "6 pipes (nRF24L01+ Product Specification 1.0, 7.6 p39)", "0.1")
{
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var plan in network.Plan.Nodes)
        {
            if (plan.Node is not { OwnPipes: null, Part: { } part } node)
                continue;
            // A hop whose written pipe is somebody else's has a place to go to: RL4201.
            var without = plan.Receives.Where(hop => hop.Pipe is null && hop.Address is not null && hop.Link.Pipe?.Value.Number is null).ToList();
            if (without.Count == 0)
                continue;
            var needed = plan.Pipes.Length + without.Select(hop => hop.Address).Distinct().Count();
            yield return At(
                node, node.NamePlace,
                $"`{node.Label}` needs {needed} receive addresses, {needed - part.Pipes.Value} more than the {part.Pipes.Value} pipes of {part.Name}",
                $"let links share: give several of them one `address` and their payload a field as sender; or have `{node.Label}` poll the others") with
            {
                Related = ImmutableArray.CreateRange(without.Select(hop => hop.Link).Distinct()
                    .Select(link => new RelatedPlace(link.FromPlace, $"no pipe is left for the link from {link.FromText}"))),
            };
        }
    }
}
