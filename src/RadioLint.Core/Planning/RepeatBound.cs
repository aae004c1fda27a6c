namespace RadioLint.Planning;

/// <summary>
/// What senders of one receiver cost at least, however they are dealt to classes. Two in one class cost <see cref="PlanCost.SameClass"/> and how often they meet, (r1 + r2)(t1 + t2)
/// of their rates and times, which is at least a1 + a2 with a = r (t + the shortest time). So a class of n costs at least (n - 1) times the sum of its a. Then a best partition takes
/// senders by falling a in runs, from the emptiest class to the fullest (rearrangement), and of equal classes the fullest has the shortest delay; runs are found by dynamic
/// programming. A class that written delays are in step with, unlike most others, may come anywhere in that order: every place is tried.
/// </summary>
internal sealed class RepeatBound
{
    // Places of classes with written delays are tried for so many of them; what the others hold is left out, which only lowers the bound.
    private const int MostHeld = 2;

    private readonly Class[] classes;
    private readonly (int Sender, long Weight)[] sorted;
    private readonly long[] sums;
    private readonly List<(int Sender, int Delay)> runs = [];

    private RepeatBound(Class[] classes, IEnumerable<(int Sender, long Weight)> senders)
    {
        this.classes = classes;
        sorted = [.. senders.OrderByDescending(one => one.Weight).ThenBy(one => one.Sender)];
        sums = new long[sorted.Length + 1];
        for (var i = 0; i < sorted.Length; i++)
            sums[i + 1] = sums[i] + sorted[i].Weight;
    }

    /// <param name="Held">Senders with written delays that are in step with it.</param>
    private sealed record Class(int Delay, long Waiting, long Held, long HeldWeight);

    /// <param name="component">Senders that share receivers, one with another.</param>
    /// <returns>The partition as a plan to start from, and the bound.</returns>
    public static (List<(int Sender, int Delay)> Start, long Bound) Of(RepeatTable table, List<int> component)
    {
        var start = component.ConvertAll(i => (Sender: i, Delay: 0));
        // The receiver with most open senders that were given the same delays; all others cost something or nothing.
        var group = component.Where(i => table.Senders[i].IsOpen && table.Senders[i].Repeats && table.Senders[i].Delays.Length > 1)
            .SelectMany(i => table.Senders[i].Receivers.Select(receiver => (Receiver: receiver, Sender: i)))
            .GroupBy(pair => (pair.Receiver.Name, Delays: string.Join(" ", table.Senders[pair.Sender].Delays.Select(delay => delay.Nanoseconds))))
            .OrderByDescending(pairs => pairs.Count()).ThenBy(pairs => pairs.Key.Name, StringComparer.Ordinal).ThenBy(pairs => pairs.Key.Delays, StringComparer.Ordinal)
            .FirstOrDefault()?.ToList();
        var rest = component.Sum(i => table.Senders[i].Delays.Min(delay => PlanCost.Waiting(delay, table.Senders[i].Least)));
        if (group is null)
            return (start, rest);
        var members = new HashSet<int>(group.Select(pair => pair.Sender));
        var held = component.Where(i => !members.Contains(i) && table.Senders[i].Repeats && table.Senders[i].Delays.Length == 1 && table.Senders[i].Receivers.Contains(group[0].Receiver)).ToList();
        var (runs, bound) = Partition(table, [.. members.OrderBy(i => i)], held);
        start.RemoveAll(one => members.Contains(one.Sender));
        return ([.. start, .. runs], bound + rest - members.Sum(i => table.Senders[i].Delays.Min(delay => PlanCost.Waiting(delay, table.Senders[i].Least))));
    }

    private static (List<(int Sender, int Delay)> Runs, long Bound) Partition(RepeatTable table, List<int> group, List<int> held)
    {
        var delays = table.Senders[group[0]].Delays;
        var shortest = group.Concat(held).Min(i => table.Senders[i].Busy);
        var classes = Enumerable.Range(0, delays.Length).Reverse().Select(c => held.Where(i => group.TrueForAll(one => table.AreInStep(one, c, i, 0))))
            .Select((there, at) => new Class(delays.Length - 1 - at, PlanCost.Waiting(delays[delays.Length - 1 - at], default), there.Count(), there.Sum(Weight))).ToList();
        // As most of them: only others change the order. Of more than a few others what is written is left out, which lowers the bound alone.
        var usual = classes.GroupBy(one => (one.Held, one.HeldWeight)).OrderByDescending(same => same.Count()).ThenBy(same => same.Key.Held).First().Key;
        var others = classes.Where(one => (one.Held, one.HeldWeight) != usual).OrderByDescending(one => one.Held).ThenBy(one => one.Delay).ToList();
        var kept = new HashSet<int>(others.Take(delays.Length > 8 ? 1 : MostHeld).Select(one => one.Delay));
        if (others.Count > kept.Count)
            classes = classes.ConvertAll(one => kept.Contains(one.Delay) ? one : one with { Held = 0, HeldWeight = 0 });
        RepeatBound? best = null;
        var least = long.MaxValue;
        foreach (var order in Orders([.. classes.Where(one => !kept.Contains(one.Delay))], [.. classes.Where(one => kept.Contains(one.Delay))]))
        {
            var bound = new RepeatBound(order, group.Select(i => (i, Weight(i))));
            if (bound.Least() is var cost && cost < least)
                (best, least) = (bound, cost);
        }
        // Waiting counts from what each needs: the legal delays are above it.
        return (best!.runs, least - group.Sum(i => PlanCost.Waiting(table.Senders[i].Least, default)) + Among(table, held));

        // Rounded down: a bound must not be more than the pairs themselves.
        long Weight(int i) => (long)decimal.Floor(Math.Min(500_000m, table.Senders[i].PerSecond * (table.Senders[i].Busy + shortest).Nanoseconds / 1_000m));
    }

    // What written delays cost each other.
    private static long Among(RepeatTable table, List<int> held)
    {
        var members = new HashSet<int>(held);
        return table.Pairs.Where(pair => members.Contains(pair.One) && members.Contains(pair.Other) && table.AreInStep(pair.One, 0, pair.Other, 0)).Sum(pair => pair.Cost);
    }

    private static IEnumerable<Class[]> Orders(List<Class> free, List<Class> held)
    {
        if (held.Count == 0)
            return [[.. free]];
        return Orders(free, held.GetRange(1, held.Count - 1)).SelectMany(order => Enumerable.Range(0, order.Length + 1).Select(at => (Class[])[.. order.Take(at), held[0], .. order.Skip(at)]));
    }

    private long Least()
    {
        // least[c, i]: the first i senders in the first c classes.
        var least = new long[classes.Length + 1, sorted.Length + 1];
        var cut = new int[classes.Length + 1, sorted.Length + 1];
        for (var i = 1; i <= sorted.Length; i++)
            least[0, i] = long.MaxValue / 4;
        for (var c = 1; c <= classes.Length; c++)
        {
            for (var i = 0; i <= sorted.Length; i++)
            {
                least[c, i] = long.MaxValue / 4;
                for (var from = 0; from <= i; from++)
                {
                    if (least[c - 1, from] + Cost(classes[c - 1], from, i) is var cost && cost < least[c, i])
                        (least[c, i], cut[c, i]) = (cost, from);
                }
            }
        }
        for (int c = classes.Length, i = sorted.Length; c > 0; i = cut[c, i], c--)
        {
            for (var at = cut[c, i]; at < i; at++)
                runs.Add((sorted[at].Sender, classes[c - 1].Delay));
        }
        return least[classes.Length, sorted.Length];
    }

    private long Cost(Class one, int from, int to)
    {
        long open = to - from;
        return (open * (one.Waiting + (one.Held * PlanCost.SameClass) + one.HeldWeight)) + (open * (open - 1) / 2 * PlanCost.SameClass) + (Math.Max(0, open - 1 + one.Held) * (sums[to] - sums[from]));
    }
}
