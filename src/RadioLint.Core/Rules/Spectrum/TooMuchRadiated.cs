using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Spectrum;

/// <summary>RL3101: chip, front end and antenna together radiate more than the region allows.</summary>
public sealed class TooMuchRadiated() : Rule(new(
    "RL3101", Severity.Error, "Radiated power above the region's limit",
    "EIRP of the region's entry: CEPT countries and GB 10 dBm, US and CA 18.75 dBm peak, RU 3.01 dBm, JP 12.14 dBm certified equipment only, others as listed; nominal power step", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        if (network.Band.CertifiedOnly && network.RegionCode is { } region)
        {
            yield return At(
                region.Place, $"in {region.Value} only equipment that carries the conformity mark may send, whatever its power",
                $"use certified modules; the rules of the place of use govern") with
            { Severity = Severity.Info };
        }
        foreach (var node in network.DistinctNodes)
        {
            if (Eirp.Of(node) is { } radiated && radiated.Level > network.Band.Limit)
                yield return TooMuch(network, node, radiated);
        }
    }

    private Finding TooMuch(Network network, Node node, Eirp radiated)
    {
        var power = node.Power!;
        var place = power.IsDefault ? node.Radio.FrontEnd?.Place ?? node.NamePlace : power.Place;
        var excess = radiated.Level - network.Band.Limit;
        var least = radiated.IsLowerBound ? "at least " : "";
        var step = node.Part!.PowerSteps.FirstOrDefault(one => Eirp.Of(node, one.Step) is { } less && less.Level <= network.Band.Limit);
        return At(
            node, place,
            $"node `{node.Label}` radiates {least}{radiated.Level} EIRP ({radiated.Steps}), {least}{excess} above the limit of {OccupiedBandLeavesRegion.RegionOf(network)}, {network.Band.Limit} EIRP",
            step is null
                ? (FormattableString)$"use a smaller antenna{(node.FrontEnd is null ? "" : " or leave the front end out")}: no power step of {node.Part.Name} is low enough, with this antenna at most {Eirp.MostConducted(node, network.Band.Limit)} may go into its cable; the rules of the place of use govern"
                : $"use `power: {step.Step}`; the rules of the place of use govern",
            step is null ? [] : power.IsDefault ? Stating(node, step.Step) : [Offer($"Use {step.Step}", place, $"{step.Step}")]) with
        {
            Related = node.Radio.FrontEnd is { } front && front.Place != place
                ? ImmutableArray.Create(new RelatedPlace(front.Place, $"{front.Value} amplifies by {node.FrontEnd!.Gain.Value}"))
                : ImmutableArray<RelatedPlace>.Empty,
        };
    }

    // Nothing is written that could be replaced.
    private static Fix[] Stating(Node node, PowerLevel step) =>
        FurtherKey.BehindBoard(node, "power", $"{step}") is { } edit ? [Offer($"State {step}", [edit])] : [];
}
