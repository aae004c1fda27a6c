namespace RadioLint.Planning;

/// <summary>
/// What senders of one receiver cost at least, however they are dealt to classes. Two in one class cost <see cref="PlanCost.SameClass"/> and how often they meet,
/// (r1 + r2)(t1 + t2) of their rates and times. A sender in a class with m others so pays m r t for its own time and r times theirs, which is at least the m shortest times of all.
/// Both grow with m, so the least is had by senders of falling r t, and of falling r, in runs from the emptiest class to the fullest (rearrangement), of equal classes the fullest
/// having the shortest delay; runs are found by dynamic programming. A class that written delays are in step with, unlike most others, may come anywhere in that order: every
/// place is tried.
/// </summary>
internal sealed class RepeatBound
{
    // Places are tried for so many classes; what the others hold is left out, which only lowers the bound.
    private const int MostHeld = 2;

    // A pair's meetings are rounded to whole points.
    private const double Pair = PlanCost.SameClass - 0.5;

    private readonly List<Sender> byTraffic;
    private readonly double[] traffic;
    private readonly double[] rates;
    private readonly double[] shortest;

    private RepeatBound(List<Sender> open, List<Sender> held)
    {
        byTraffic = [.. open.OrderByDescending(one => one.Rate * one.Time).ThenBy(one => one.Index)];
        traffic = Sums(byTraffic.Select(one => one.Rate * one.Time));
        rates = Sums(open.Select(one => one.Rate).OrderByDescending(rate => rate));
        shortest = Sums(open.Concat(held).Select(one => one.Time).OrderBy(time => time));
    }

    /// <param name="Rate">Packets in a second.</param>
    /// <param name="Time">Of one, in microseconds: a rate times a time are millionths.</param>
    private sealed record Sender(int Index, double Rate, double Time);

    /// <param name="Held">Senders with written delays that are in step with it.</param>
    private sealed record Class(int Delay, long Waiting, List<Sender> Held)
    {
        public double Traffic { get; } = Held.Sum(one => one.Rate * one.Time);

        public double Rate { get; } = Held.Sum(one => one.Rate);
    }

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
        // Where somebody always sends, meetings end at the whole: rates are then left out, which lowers the bound alone.
        var always = group.Concat(held).Any(i => table.Senders[i].PerSecond * table.Senders[i].Busy.Nanoseconds > 200_000_000m);
        var (open, stay) = (group.ConvertAll(Of), held.ConvertAll(Of));
        var classes = Enumerable.Range(1, delays.Length).Select(c => delays.Length - c)
            .Select(c => new Class(c, PlanCost.Waiting(delays[c], default), stay.FindAll(one => group.TrueForAll(i => table.AreInStep(i, c, one.Index, 0))))).ToList();
        var usual = classes.GroupBy(one => string.Join(" ", one.Held.Select(there => there.Index))).OrderByDescending(same => same.Count()).ThenBy(same => same.Key, StringComparer.Ordinal).First().ToList();
        var others = classes.Except(usual).OrderByDescending(one => one.Held.Count).ThenBy(one => one.Delay).ToList();
        var placed = others.Take(delays.Length > 8 ? 1 : MostHeld).ToList();
        // Those that are not placed count as if they held nothing, and then so must the usual ones.
        if (others.Count > placed.Count)
            usual = [.. classes.Except(placed).Select(one => one with { Held = [] })];
        var bound = new RepeatBound(open, stay);
        var (runs, least) = Orders(usual, placed).Select(bound.Least).OrderBy(result => result.Cost).First();
        // Waiting counts from what each needs: the legal delays are above it.
        return (runs, (long)Math.Floor(least - 0.001) - group.Sum(i => PlanCost.Waiting(table.Senders[i].Least, default)) + Among(table, held));

        Sender Of(int i) => new(i, always ? 0 : (double)table.Senders[i].PerSecond, table.Senders[i].Busy.Nanoseconds / 1_000.0);
    }

    // What written delays cost each other.
    private static long Among(RepeatTable table, List<int> held)
    {
        var members = new HashSet<int>(held);
        return table.Pairs.Where(pair => members.Contains(pair.One) && members.Contains(pair.Other) && table.AreInStep(pair.One, 0, pair.Other, 0)).Sum(pair => pair.Cost);
    }

    private static IEnumerable<Class[]> Orders(List<Class> usual, List<Class> placed)
    {
        if (placed.Count == 0)
            return [[.. usual]];
        return Orders(usual, placed.GetRange(1, placed.Count - 1)).SelectMany(order => Enumerable.Range(0, order.Length + 1).Select(at => (Class[])[.. order.Take(at), placed[0], .. order.Skip(at)]));
    }

    private static double[] Sums(IEnumerable<double> values)
    {
        var sums = new List<double> { 0 };
        foreach (var value in values)
            sums.Add(sums[sums.Count - 1] + value);
        return [.. sums];
    }

    private (List<(int Sender, int Delay)> Runs, double Cost) Least(Class[] classes)
    {
        // least[c, i]: the first i senders in the first c classes.
        var count = byTraffic.Count;
        var least = new double[classes.Length + 1, count + 1];
        var cut = new int[classes.Length + 1, count + 1];
        for (var i = 1; i <= count; i++)
            least[0, i] = double.PositiveInfinity;
        for (var c = 1; c <= classes.Length; c++)
        {
            for (var i = 0; i <= count; i++)
            {
                least[c, i] = double.PositiveInfinity;
                for (var from = 0; from <= i; from++)
                {
                    if (least[c - 1, from] + Cost(classes[c - 1], from, i) is var cost && cost < least[c, i])
                        (least[c, i], cut[c, i]) = (cost, from);
                }
            }
        }
        var runs = new List<(int, int)>();
        for (int c = classes.Length, i = count; c > 0; i = cut[c, i], c--)
        {
            for (var at = cut[c, i]; at < i; at++)
                runs.Add((byTraffic[at].Index, classes[c - 1].Delay));
        }
        return (runs, least[classes.Length, count]);
    }

    private double Cost(Class one, int from, int to)
    {
        var open = to - from;
        if (open == 0)
            return 0;
        var with = open - 1 + one.Held.Count;
        return (open * one.Waiting) + (Pair * ((open * (open - 1) / 2) + (open * one.Held.Count)))
            + (with * (traffic[to] - traffic[from])) + (shortest[with] * (rates[to] - rates[from]))
            + (open * one.Traffic) + (shortest[open] * one.Rate);
    }
}
