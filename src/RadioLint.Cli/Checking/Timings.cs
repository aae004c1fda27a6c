using RadioLint.Cli.Output;
using RadioLint.Rules;

namespace RadioLint.Cli.Checking;

/// <summary>What each piece of a check cost, added up over manifests. The only clock of a check, and no finding depends on it.</summary>
internal sealed class Timings(TimeProvider clock)
{
    private readonly Lock gate = new();
    private readonly Dictionary<string, (TimeSpan Time, int Findings)> costs = new(StringComparer.Ordinal);
    private int manifests;

    /// <summary>Begins to measure one manifest: what is handed back is told of each piece of its work as it is done (<see cref="CheckOptions.Done"/>).</summary>
    public Action<string, int> Start()
    {
        Interlocked.Increment(ref manifests);
        var last = clock.GetTimestamp();
        return (work, findings) =>
        {
            var now = clock.GetTimestamp();
            Add(work, clock.GetElapsedTime(last, now), findings);
            last = now;
        };
    }

    /// <summary>The dearest first, equal ones in the order of their names.</summary>
    public void Write(TextWriter output)
    {
        var total = costs.Values.Aggregate(TimeSpan.Zero, (sum, cost) => sum + cost.Time);
        output.WriteLine("      time   share  findings  work");
        foreach (var (work, (time, findings)) in costs.OrderByDescending(cost => cost.Value.Time).ThenBy(cost => cost.Key, StringComparer.Ordinal))
        {
            var share = total == TimeSpan.Zero ? 0 : 100 * (time / total);
            output.WriteLine(FormattableString.Invariant($"{time.TotalMilliseconds,7:F3} ms  {share,4:F1} %  {findings,8}  {Words(work)}"));
        }
        output.WriteLine(FormattableString.Invariant($"{total.TotalMilliseconds,7:F3} ms  in all, added up over {TextReport.Count(manifests, "manifest")}"));
    }

    private static string Words(string work) => Catalogue.Find(work) is { } rule ? $"{rule.Id} {rule.Title}" : work;

    private void Add(string work, TimeSpan time, int findings)
    {
        lock (gate)
        {
            costs.TryGetValue(work, out var before);
            costs[work] = (before.Time + time, before.Findings + findings);
        }
    }
}
