using RadioLint.Readback;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>Puts the lines of `rl1 sweep NODE NUMBER DWELL-US FIRST-CHANNEL HITS...` together to sweeps, node by node.</summary>
/// <param name="take">Called for each sweep, also for one of which lines are missing: their channels have no samples.</param>
public sealed class SweepReports(Action<Sweep> take)
{
    /// <summary>How often the survey program goes over all channels in one sweep; what it counts is out of so many (docs/firmware.md).</summary>
    public const int Rounds = 100;

    private const int MostDwell = 10_000_000;

    private readonly Dictionary<string, Sweep> open = new(StringComparer.Ordinal);

    /// <summary>Takes a report of any kind. Null when it is understood or none of ours; else the word at fault and what is wrong.</summary>
    /// <param name="at">When it came; null where that is not known.</param>
    public (Place Place, string Fault)? Take(ReportText report, Duration? at)
    {
        // A node that starts anew counts its sweeps from 1 again.
        if (report.Kind == "boot")
            End(report.Node);
        if (report.Kind != "sweep")
            return null;
        if (report.Fields.Count < 4)
            return (report.Place, "`sweep` is told in another form");
        if (Fault(report.Fields[0], int.MaxValue, "a number of a sweep", out var number) is { } noNumber)
            return noNumber;
        if (Fault(report.Fields[1], MostDwell, "a dwell in us", out var dwell) is { } noDwell)
            return noDwell;
        if (Fault(report.Fields[2], Sweep.Channels - 1, "a channel", out var first) is { } noChannel)
            return noChannel;
        if (first + report.Fields.Count - 3 > Sweep.Channels)
            return (report.Place, FormattableString.Invariant($"it tells of channels past {Sweep.Channels - 1}"));
        var hits = new int[report.Fields.Count - 3];
        for (var i = 0; i < hits.Length; i++)
        {
            if (Fault(report.Fields[i + 3], Rounds, FormattableString.Invariant($"a count out of {Rounds}"), out hits[i]) is { } noCount)
                return noCount;
        }
        Put(report.Node, number, Duration.FromMicroseconds(dwell), at, first, hits);
        return null;
    }

    /// <summary>Hands over what has come of the last sweeps.</summary>
    public void End()
    {
        foreach (var node in open.Keys.OrderBy(name => name, StringComparer.Ordinal).ToList())
            End(node);
    }

    private void End(string node)
    {
        if (open.TryGetValue(node, out var sweep))
        {
            open.Remove(node);
            take(sweep);
        }
    }

    private void Put(string node, int number, Duration dwell, Duration? at, int first, int[] hits)
    {
        if (open.TryGetValue(node, out var sweep) && (sweep.Number != number || sweep.Dwell != dwell || sweep.Samples[first] > 0))
            End(node);
        // The time is that of the latest line.
        sweep = open.TryGetValue(node, out var begun) ? (begun.At == at ? begun : begun.Moved(node, at)) : new() { Where = node, Number = number, Dwell = dwell, At = at };
        open[node] = sweep;
        for (var i = 0; i < hits.Length; i++)
        {
            sweep.Samples[first + i] = Rounds;
            sweep.Heard[first + i] = hits[i];
        }
        if (first + hits.Length == Sweep.Channels && sweep.Samples[0] > 0)
            End(node);
    }

    private static (Place, string)? Fault(ReportWord word, int most, string what, out int value) =>
        Decimals.TryWhole(word.Text, 0, word.Text.Length, most, out value) ? null : (word.Place, $"`{word.Text}` is not {what}");
}
