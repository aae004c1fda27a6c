using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Rules.Range;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>A hop whose budget can be worked out.</summary>
/// <param name="Cases">What the path takes away and what is wanted to spare, for the setting that is stated or for each that it may be.</param>
internal sealed record PathFacts(JudgedHop Judged, ImmutableArray<(Setting Setting, Gain Loss, Gain Wanted)> Cases)
{
    private static readonly Setting[] Settings = [Setting.Open, Setting.House, Setting.Office, Setting.Hall];

    /// <summary>What is missing for a budget, in words; null when nothing is.</summary>
    public static string? Missing(Network network, JudgedHop judged)
    {
        var (hop, link) = (judged.Hop, judged.Hop.Link);
        if (link.Distance is null)
            return $"`distance` of the link from {link.FromText} to {link.ToText}";
        if (!judged.HasPath)
            return $"an antenna at both ends of {hop.Label}";
        var missing = judged.Missing().ToList();
        if (missing.Count == 0 && (link.Setting ?? network.Setting) is { Value: Setting.Open })
            missing.AddRange(judged.MissingHeights());
        return missing.Count == 0 ? null : $"`{missing[0].Key}` of `{missing[0].Node.Label}`";
    }

    /// <summary>Null where something is missing.</summary>
    public static PathFacts? Of(Network network, JudgedHop judged)
    {
        if (Missing(network, judged) is not null)
            return null;
        var (hop, link) = (judged.Hop, judged.Hop.Link);
        return new(judged, ImmutableArray.CreateRange(((link.Setting ?? network.Setting) is { } stated ? [stated.Value] : Settings).Select(setting => (
            setting, PathEstimate.Most(setting, link.Distance!.Value.High, hop.Sender.Height?.Value, hop.Receiver.Height?.Value, link.Through), judged.Wanted(setting)))));
    }

    /// <summary>The case that lacks most from a node at a step; null while a part or its power is not known.</summary>
    /// <param name="from">With the step that it would send at.</param>
    public (Gain Margin, Gain Wanted, LinkBudget Budget)? Worst(Node from, Node to)
    {
        (Gain Margin, Gain Wanted, LinkBudget Budget)? worst = null;
        foreach (var (_, loss, wanted) in Cases)
        {
            if (LinkBudget.Of(from, to, Judged.Rate, loss) is not { } budget)
                return null;
            if (worst is null || budget.Margin - wanted < worst.Value.Margin - worst.Value.Wanted)
                worst = (budget.Margin, wanted, budget);
        }
        return worst;
    }
}
