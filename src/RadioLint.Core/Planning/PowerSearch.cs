namespace RadioLint.Planning;

/// <summary>
/// Power steps: a variable with one partner or none is settled for each step of its partner and taken out (min-sum elimination), which is exact for networks round a hub and
/// for trees; in what is left, the variable with most partners is tried step by step. Where that would take too long, one variable after the other is set to its best, and
/// the pairs' costs, none below nothing, are left out of the bound.
/// </summary>
internal sealed class PowerSearch
{
    // So many settings of variables that stand in circles are tried.
    private const int Budget = 4_096;

    private readonly long[][] alone;
    private readonly Dictionary<int, long[,]>[] pairs;
    private readonly List<int> variables;

    private PowerSearch(long[][] alone, Dictionary<int, long[,]>[] pairs, List<int> variables) => (this.alone, this.pairs, this.variables) = (alone, pairs, variables);

    /// <summary>The steps, their cost and what none can go below.</summary>
    public static (int[] Steps, long Cost, long Bound) Solve(PowerTable table)
    {
        var pairs = Enumerable.Range(0, table.Alone.Length).Select(_ => new Dictionary<int, long[,]>()).ToArray();
        foreach (var pair in table.Pairs)
        {
            pairs[pair.Key.One].Add(pair.Key.Other, pair.Value);
            pairs[pair.Key.Other].Add(pair.Key.One, Turned(pair.Value));
        }
        var steps = new int[table.Alone.Length];
        var search = new PowerSearch([.. table.Alone.Select(costs => (long[])costs.Clone())], pairs, [.. Enumerable.Range(0, steps.Length)]);
        var isExact = search.Settle(steps, 1);
        var cost = table.Cost(steps);
        return (steps, cost, isExact ? cost : Math.Min(cost, table.Alone.Sum(costs => costs.Min())));
    }

    // False where the result is only a good one.
    private bool Settle(int[] steps, int tried)
    {
        var taken = new Stack<(int Variable, int? Partner, int[] Best)>();
        while (variables.Where(one => pairs[one].Count < 2).Cast<int?>().FirstOrDefault() is { } leaf)
            taken.Push(TakeOut(leaf));
        var isExact = variables.Count == 0 || Condition(steps, tried);
        while (taken.Count > 0)
        {
            var (variable, partner, best) = taken.Pop();
            steps[variable] = best[partner is { } one ? steps[one] : 0];
        }
        return isExact;
    }

    private (int Variable, int? Partner, int[] Best) TakeOut(int leaf)
    {
        variables.Remove(leaf);
        if (pairs[leaf].Count == 0)
            return (leaf, null, [Least(alone[leaf])]);
        var (partner, costs) = (pairs[leaf].Keys.First(), pairs[leaf].Values.First());
        pairs[partner].Remove(leaf);
        var best = new int[alone[partner].Length];
        for (var l = 0; l < best.Length; l++)
        {
            for (var k = 1; k < alone[leaf].Length; k++)
            {
                if (alone[leaf][k] + costs[k, l] < alone[leaf][best[l]] + costs[best[l], l])
                    best[l] = k;
            }
            alone[partner][l] += alone[leaf][best[l]] + costs[best[l], l];
        }
        return (leaf, partner, best);
    }

    private bool Condition(int[] steps, int tried)
    {
        var most = variables.OrderByDescending(one => pairs[one].Count).ThenBy(one => one).First();
        if (tried * (long)alone[most].Length > Budget)
        {
            Descend(steps);
            return false;
        }
        var (isExact, cheapest) = (true, long.MaxValue);
        for (var k = 0; k < alone[most].Length; k++)
        {
            var rest = Without(most, k);
            var attempt = (int[])steps.Clone();
            attempt[most] = k;
            isExact &= rest.Settle(attempt, tried * alone[most].Length);
            var cost = Cost(attempt);
            if (cost >= cheapest)
                continue;
            cheapest = cost;
            foreach (var one in variables)
                steps[one] = attempt[one];
        }
        return isExact;
    }

    private PowerSearch Without(int gone, int step)
    {
        var (single, joint) = (alone.Select(costs => (long[])costs.Clone()).ToArray(), pairs.Select(partners => new Dictionary<int, long[,]>(partners)).ToArray());
        foreach (var pair in pairs[gone])
        {
            joint[pair.Key].Remove(gone);
            for (var l = 0; l < single[pair.Key].Length; l++)
                single[pair.Key][l] += pair.Value[step, l];
        }
        joint[gone].Clear();
        return new(single, joint, [.. variables.Where(one => one != gone)]);
    }

    // One after the other to the best beside the others, until nothing gets cheaper.
    private void Descend(int[] steps)
    {
        foreach (var one in variables)
            steps[one] = Least(alone[one]);
        for (var better = true; better;)
        {
            better = false;
            foreach (var one in variables)
            {
                var costs = alone[one].Select((cost, k) => cost + pairs[one].Sum(pair => pair.Value[k, steps[pair.Key]])).ToArray();
                var best = Least(costs);
                if (costs[best] >= costs[steps[one]])
                    continue;
                (steps[one], better) = (best, true);
            }
        }
    }

    private long Cost(int[] steps) => variables.Sum(one => alone[one][steps[one]]
        + pairs[one].Where(pair => pair.Key > one).Sum(pair => pair.Value[steps[one], steps[pair.Key]]));

    private static int Least(long[] costs) => Array.IndexOf(costs, costs.Min());

    private static long[,] Turned(long[,] costs)
    {
        var turned = new long[costs.GetLength(1), costs.GetLength(0)];
        for (var k = 0; k < costs.GetLength(0); k++)
        {
            for (var l = 0; l < costs.GetLength(1); l++)
                turned[l, k] = costs[k, l];
        }
        return turned;
    }
}
