using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Rules.Range;

/// <summary>RL7204: packets reach farther than their acknowledgements.</summary>
public sealed class ReturnWeaker() : Rule(new(
    "RL7204", Severity.Warning, "Acknowledge path weaker than the forward path",
    "10 dB between the two directions, where the weaker is not known to have its margin (own rule: the reserve of a link in sight)", "0.1")
{
    Silences = ["RL7201"],
})
{
    private static readonly Gain Most = new(1_000);

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var judged in JudgedHop.Of(network))
        {
            var (far, hub, rate) = (judged.Hop.Sender, judged.Hop.Receiver, judged.Rate);
            if (!judged.Returns || Difference(far, hub, rate) is not { } difference || difference < Most || IsEnough(network, judged))
                continue;
            var (forth, back) = (LinkBudget.Conducted(far), LinkBudget.Conducted(hub));
            yield return At(
                judged.Hop, judged.Hop.Link.ToPlace,
                $"packets of `{far.Label}` ({forth}) have {difference} more to spare than the acknowledgements of `{hub.Label}` ({back}): far off, packets arrive and count as lost",
                $"use the same kind of module and the same power at both ends, or lower the power of `{far.Label}`") with
            { Related = far.Radio.FrontEnd is { } front ? See(front.Place, $"`{far.Label}` amplifies here") : ImmutableArray<RelatedPlace>.Empty };
        }
    }

    /// <summary>True when packets have so much more to spare than what comes back that it is told, unless both have enough.</summary>
    internal static bool IsWeaker(Node far, Node hub, DataRate rate) => Difference(far, hub, rate) >= Most;

    // Antennas, cables and the path are the same both ways.
    private static Gain? Difference(Node far, Node hub, DataRate rate) =>
        LinkBudget.Conducted(far) is { } forth && LinkBudget.Conducted(hub) is { } back && LinkBudget.SensitivityOf(hub, rate) is { } heard && LinkBudget.SensitivityOf(far, rate) is { } answered
            ? (forth - heard) - (back - answered) : null;

    // Both directions have what such a link should have, or not even the stronger one has: then distance is the matter, and RL7201 speaks.
    private static bool IsEnough(Network network, JudgedHop judged)
    {
        if (judged.Hop.Link is not { Distance: { } distance } link || (link.Setting ?? network.Setting) is not { } setting)
            return false;
        var loss = PathEstimate.Most(setting.Value, distance.Value.High, judged.Hop.Sender.Height?.Value, judged.Hop.Receiver.Height?.Value, link.Through);
        var (both, wanted) = (judged.Directions(loss).ToList(), judged.Wanted(setting.Value));
        return both.Count == 2 && (both[1].Budget.Margin >= wanted || both[0].Budget.Margin < wanted);
    }
}
