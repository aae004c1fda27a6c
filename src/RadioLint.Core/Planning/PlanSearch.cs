using System.Collections.Immutable;
using RadioLint.Model;

namespace RadioLint.Planning;

/// <summary>The best plan that was found, and what none can go below.</summary>
/// <param name="ByRate">What the best plan at each rate costs.</param>
internal sealed record Solution(Answer Answer, long Cost, long Bound, IReadOnlyDictionary<DataRate, long> ByRate);

/// <summary>
/// Rates and channels are gone through one by one; delays depend on the rate alone, power steps on the rate and, where an interferer's distance is known, on the channel. Each of
/// the two is searched by itself, since no cost joins them.
/// </summary>
internal static class PlanSearch
{
    /// <summary>Null where no rate and channel are left. Of equal plans the slower rate, then the higher channel, then the lower steps.</summary>
    public static Solution? Solve(Question question)
    {
        Solution? best = null;
        var bound = long.MaxValue;
        var byRate = new Dictionary<DataRate, long>();
        var (pipes, shared) = (question.Pipes.AsPlanned, question.Pipes.Cost(question.Pipes.AsPlanned));
        foreach (var rate in question.Rates)
        {
            var at = question.At(rate);
            if (!Feasibility.IsMet(question, at))
                continue;
            var repeats = at.Delays.Value;
            var searched = new Dictionary<PowerTable, (int[] Steps, long Cost, long Bound)>();
            foreach (var channel in at.Choosable.Reverse())
            {
                var table = at.Powers(channel);
                if (!searched.TryGetValue(table, out var powers))
                    searched.Add(table, powers = PowerSearch.Solve(table));
                var rest = at.Traffic + at.ChannelCost(channel) + shared;
                bound = Math.Min(bound, rest + repeats.Bound + powers.Bound);
                var cost = rest + repeats.Cost + powers.Cost;
                if (rate is { } known && (!byRate.TryGetValue(known, out var least) || cost < least))
                    byRate[known] = cost;
                if (best is null || cost < best.Cost)
                    best = new(new(rate, channel, powers.Steps, repeats.Delays, pipes), cost, 0, byRate);
            }
        }
        return best is null ? null : best with { Bound = bound };
    }
}
