using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Links;

/// <summary>RL5001: a radio is to use a data rate that it does not have.</summary>
public sealed class RateThatPartLacks() : Rule(new(
    "RL5001", Severity.Error, "Data rate that the part does not have",
    "the part's profile: 250 kbps needs nRF24L01+; nRF24L01 has 1 and 2 Mbps (their product specifications, RF_SETUP); that the older part stays at 1 Mbps is common practice, no source", "0.1")
{
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Part: { } part, Air: { Rate: { } stated, ChosenRate: { } rate } } || part.Rate(rate) is not null)
                continue;
            var nearest = part.Rates.Where(each => network.Nodes.All(other => other.Part?.Rate(each.Rate) is not null)).Select(each => each.Rate.InManifest()).FirstOrDefault();
            yield return At(
                node, node.Radio.Part?.Place ?? stated.Place,
                $"`{node.Label}` is to use {rate.InManifest()}, but {part.Name} has {string.Join(" and ", part.Rates.Select(each => each.Rate.InManifest()))} only",
                nearest is null ? (FormattableString)$"replace the part with one that has {rate.InManifest()}" : $"use {nearest} in the whole network, or replace the part with one that has {rate.InManifest()}",
                nearest is null || stated.IsDefault ? [] : [Offer($"Use {nearest}", stated.Place, nearest)]) with
            { Related = See(stated.Place, $"the rate is here") };
        }
    }
}
