using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>
/// Delays for senders: exactly where they are few; else from the best partition of senders into classes by sums of their rates, improved by moving one sender or exchanging
/// two until nothing gets cheaper.
/// </summary>
internal sealed class RepeatSearch
{
    // So many plans of one group of senders are looked at, one by one; of more, a good one is found.
    private const int Budget = 200_000;

    private readonly RepeatTable table;
    private readonly List<(int Other, long Cost)>[] partners;
    private readonly int[] best;
    private readonly int[] delays;
    private readonly bool[] set;
    private long bestCost = long.MaxValue;

    private RepeatSearch(RepeatTable table)
    {
        this.table = table;
        (best, delays, set) = (new int[table.Senders.Length], new int[table.Senders.Length], new bool[table.Senders.Length]);
        partners = [.. table.Senders.Select(_ => new List<(int, long)>())];
        foreach (var (one, other, cost) in table.Pairs)
        {
            partners[one].Add((other, cost));
            partners[other].Add((one, cost));
        }
    }

    /// <summary>The delays, their cost and what none can go below.</summary>
    public static (int[] Delays, long Cost, long Bound) Solve(RepeatTable table)
    {
        var search = new RepeatSearch(table);
        var (total, bound) = (0L, 0L);
        foreach (var component in search.Components())
        {
            var (cost, least) = search.SolveTogether(component);
            total += cost;
            bound += least;
        }
        return (search.best, total, bound);
    }

    private IEnumerable<List<int>> Components()
    {
        var seen = new bool[partners.Length];
        for (var i = 0; i < partners.Length; i++)
        {
            if (seen[i])
                continue;
            var component = new List<int>();
            var ahead = new Stack<int>([i]);
            seen[i] = true;
            while (ahead.Count > 0)
            {
                var at = ahead.Pop();
                component.Add(at);
                foreach (var (other, _) in partners[at].Where(one => !seen[one.Other]))
                {
                    seen[other] = true;
                    ahead.Push(other);
                }
            }
            component.Sort();
            yield return component;
        }
    }

    private (long Cost, long Bound) SolveTogether(List<int> component)
    {
        bestCost = long.MaxValue;
        var (start, bound) = RepeatBound.Of(table, component);
        foreach (var (sender, delay) in start)
            delays[sender] = delay;
        Improve(component);
        Keep(component, CostOf(component));
        // The fixed first: they decide nothing.
        var order = component.OrderBy(i => table.Senders[i].Delays.Length == 1 ? 0 : 1).ThenBy(i => i).ToList();
        if (bestCost > bound && component.Aggregate(1.0, (product, i) => product * table.Senders[i].Delays.Length) <= Budget)
        {
            Branch(order, 0, 0);
            bound = bestCost;
        }
        return (bestCost, Math.Min(bound, bestCost));
    }

    private void Branch(List<int> order, int depth, long cost)
    {
        if (cost >= bestCost)
            return;
        if (depth == order.Count)
        {
            Keep(order, cost);
            return;
        }
        var i = order[depth];
        for (var delay = 0; delay < table.Senders[i].Delays.Length; delay++)
        {
            var added = Added(i, delay, amongSet: true);
            (delays[i], set[i]) = (delay, true);
            Branch(order, depth + 1, cost + added);
            set[i] = false;
        }
    }

    private void Keep(List<int> component, long cost)
    {
        if (cost >= bestCost)
            return;
        bestCost = cost;
        foreach (var i in component)
            best[i] = delays[i];
    }

    private long Added(int i, int delay, bool amongSet = false)
    {
        var sum = PlanCost.Waiting(table.Senders[i].Delays[delay], table.Senders[i].Least);
        foreach (var (other, cost) in partners[i])
        {
            if ((!amongSet || set[other]) && table.AreInStep(i, delay, other, delays[other]))
                sum += cost;
        }
        return sum;
    }

    private long CostOf(List<int> component)
    {
        var sum = 0L;
        foreach (var i in component)
        {
            sum += Added(i, delays[i], amongSet: true);
            set[i] = true;
        }
        foreach (var i in component)
            set[i] = false;
        return sum;
    }

    private void Improve(List<int> component)
    {
        for (var better = true; better;)
        {
            better = false;
            foreach (var i in component)
                better |= Move(i);
            for (var a = 0; a < component.Count; a++)
            {
                for (var b = a + 1; b < component.Count; b++)
                    better |= Exchange(component[a], component[b]);
            }
        }
    }

    private bool Move(int i)
    {
        var (now, least) = (delays[i], Added(i, delays[i]));
        var to = now;
        for (var delay = 0; delay < table.Senders[i].Delays.Length; delay++)
        {
            if (Added(i, delay) is var cost && cost < least)
                (to, least) = (delay, cost);
        }
        delays[i] = to;
        return to != now;
    }

    // Only where both may take the other's delay: those of one receiver.
    private bool Exchange(int one, int other)
    {
        var (a, b) = (delays[one], delays[other]);
        if (a == b || a >= table.Senders[other].Delays.Length || b >= table.Senders[one].Delays.Length)
            return false;
        var before = Added(one, a) + Added(other, b);
        (delays[one], delays[other]) = (b, a);
        // Their own pair is counted twice on both sides alike: in step they stay as they were.
        if (Added(one, b) + Added(other, a) < before)
            return true;
        (delays[one], delays[other]) = (a, b);
        return false;
    }
}
