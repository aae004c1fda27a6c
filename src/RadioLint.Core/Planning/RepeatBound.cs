namespace RadioLint.Planning;

/// <summary>
/// What senders of one receiver cost at least, however they are dealt to classes. Two in one class cost <see cref="PlanCost.SameClass"/> and what their rates come to; with the
/// shortest packets taken for all, a pair's rates add, so a class of n costs (n - 1) times the sum of its rates. Then a best partition takes senders by falling rate in runs, the
/// largest class having the shortest delay (rearrangement), and runs are found by dynamic programming.
/// </summary>
internal static class RepeatBound
{
    /// <param name="component">Senders that share receivers, one with another.</param>
    /// <returns>The partition as a plan to start from, and the bound.</returns>
    public static (List<(int Sender, int Delay)> Start, long Bound) Of(RepeatTable table, List<int> component)
    {
        var start = component.Select(i => (i, 0)).ToList();
        // The receiver with most open senders that were given the same delays; all others cost something or nothing.
        var group = component.Where(i => table.Senders[i].IsOpen && table.Senders[i].Repeats && table.Senders[i].Delays.Length > 1)
            .SelectMany(i => table.Senders[i].Receivers.Select(receiver => (Receiver: receiver, Sender: i)))
            .GroupBy(pair => (pair.Receiver.Name, Delays: string.Join(" ", table.Senders[pair.Sender].Delays.Select(delay => delay.Nanoseconds))))
            .OrderByDescending(pairs => pairs.Count()).ThenBy(pairs => pairs.Key.Name, StringComparer.Ordinal).ThenBy(pairs => pairs.Key.Delays, StringComparer.Ordinal)
            .FirstOrDefault()?.Select(pair => pair.Sender).ToList();
        if (group is null)
            return (start, component.Sum(i => table.Senders[i].Delays.Min(delay => PlanCost.Waiting(delay, table.Senders[i].Least))));
        var (runs, bound) = Partition(table, group);
        start.RemoveAll(one => group.Contains(one.i));
        return ([.. start, .. runs], bound + component.Except(group).Sum(i => table.Senders[i].Delays.Min(delay => PlanCost.Waiting(delay, table.Senders[i].Least))));
    }

    private static (List<(int Sender, int Delay)> Runs, long Bound) Partition(RepeatTable table, List<int> group)
    {
        var delays = table.Senders[group[0]].Delays;
        var shortest = group.Min(i => table.Senders[i].Busy);
        // Rounded down twice over: a bound must not be more than the pairs themselves.
        var sorted = group.Select(i => (Sender: i, Rate: (long)decimal.Floor(Math.Min(500_000m, table.Senders[i].PerSecond * 2 * shortest.Nanoseconds / 1_000m))))
            .OrderByDescending(one => one.Rate).ThenBy(one => one.Sender).ToList();
        var sums = new long[sorted.Count + 1];
        for (var i = 0; i < sorted.Count; i++)
            sums[i + 1] = sums[i] + sorted[i].Rate;
        // least[c, i]: the first i senders in the c longest delays.
        var least = new long[delays.Length + 1, sorted.Count + 1];
        var cut = new int[delays.Length + 1, sorted.Count + 1];
        for (var i = 1; i <= sorted.Count; i++)
            least[0, i] = long.MaxValue / 4;
        for (var c = 1; c <= delays.Length; c++)
        {
            var delay = delays[delays.Length - c];
            var wait = PlanCost.Waiting(delay, default);
            for (var i = 0; i <= sorted.Count; i++)
            {
                least[c, i] = long.MaxValue / 4;
                for (var from = 0; from <= i; from++)
                {
                    long n = i - from;
                    var cost = least[c - 1, from] + (n * wait) + (n * (n - 1) / 2 * PlanCost.SameClass) + (Math.Max(0, n - 1) * (sums[i] - sums[from]));
                    if (cost < least[c, i])
                        (least[c, i], cut[c, i]) = (cost, from);
                }
            }
        }
        var runs = new List<(int, int)>();
        for (int c = delays.Length, i = sorted.Count; c > 0; i = cut[c, i], c--)
        {
            for (var at = cut[c, i]; at < i; at++)
                runs.Add((sorted[at].Sender, delays.Length - c));
        }
        // Waiting counts from what each needs: the legal delays are above it.
        var bound = least[delays.Length, sorted.Count] - group.Sum(i => PlanCost.Waiting(table.Senders[i].Least, default));
        return (runs, bound);
    }
}
