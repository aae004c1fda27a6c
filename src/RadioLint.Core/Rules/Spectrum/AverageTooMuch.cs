using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Rules.Spectrum;

/// <summary>RL3103: where the law limits the average, the planned traffic of a node makes too much of it.</summary>
public sealed class AverageTooMuch() : Rule(new(
    "RL3103", Severity.Warning, "Average power above the simple field-strength limit",
    "US, CA: -1.25 dBm EIRP on average over the worst 100 ms, 50 mV/m at 3 m (47 CFR 15.249, 15.35 (c), the latter from memory; RSS-210)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        if (network.Band is not { Average: { } limit, AverageOver: { } window })
            yield break;
        foreach (var node in network.DistinctNodes)
        {
            // Above the peak, RL3101 speaks.
            if (Eirp.Of(node) is not { } peak || peak.Level > network.Band.Limit || peak.Level <= limit)
                continue;
            var on = OnTime(network.Plan.Of(node), window, network.Plan);
            if (on.Nanoseconds == 0)
                continue;
            var average = Eirp.Average(peak.Level, on, window);
            if (average <= limit)
                continue;
            var least = peak.IsLowerBound ? "at least " : "";
            yield return At(
                node, node.Power is { IsDefault: false } power ? power.Place : node.Radio.FrontEnd?.Place ?? node.NamePlace,
                $"node `{node.Label}` radiates {least}{average} EIRP on average over its worst {window}, of which it sends {on} at {peak.Level} ({peak.Steps}), {least}{average - limit} above the limit of {OccupiedBandLeavesRegion.RegionOf(network)}, {limit} EIRP",
                $"use a lower power step, fewer repetitions or fewer packets, or note the certification of the module for another part of the rules; the rules of the place of use govern");
        }
    }

    /// <summary>The most that a node sends within a window: each link's packets as close as they may come, with every repetition that fits, and its answers.</summary>
    internal static Duration OnTime(NodePlan plan, Duration window, RadioPlan all)
    {
        long sum = 0;
        var broadcasts = new HashSet<Link>();
        foreach (var hop in plan.Sends.Where(hop => !hop.Link.IsBroadcast || broadcasts.Add(hop.Link)))
            sum += Packets(hop, window) * Tries(plan, hop) * (Traffic.Packet(plan, hop)?.Nanoseconds ?? 0);
        foreach (var hop in plan.Receives)
        {
            var sender = all.Of(hop.Sender);
            sum += Packets(hop, window) * Tries(sender, hop) * (Traffic.Acknowledgement(sender, hop)?.Nanoseconds ?? 0);
            if (sum > window.Nanoseconds)
                break;
        }
        return new(Math.Min(sum, window.Nanoseconds));
    }

    // One that lies in it whole, and those that begin within it; events without a spacing come singly.
    private static long Packets(Hop hop, Duration window)
    {
        var between = hop.Link.Every?.Value ?? hop.Link.Spacing?.Value;
        var pieces = Traffic.Rate(hop) is { } rate && hop.Link.Every is not null ? rate.Packets : 1;
        return between is { Nanoseconds: > 0 } gap ? pieces * ((window.Nanoseconds / gap.Nanoseconds) + 1) : pieces;
    }

    // Sixteen tries, 4 ms and the longest packet apart, all fit the window.
    private static long Tries(NodePlan sender, Hop hop) => Traffic.Repetitions(sender, hop) + 1;
}
