using System.Globalization;
using System.Text;
using RadioLint.Tests.Proof.Host;
using Xunit;

namespace RadioLint.Tests.Proof;

/// <summary>Mutants by the part that they change, and what caught them: registers first, then violations, then the exact list of frames.</summary>
/// <param name="part">What the rows are.</param>
/// <param name="last">What tells where neither registers nor violations do.</param>
public sealed class Tally(string part, string last = "Frames alone")
{
    private readonly SortedDictionary<string, int[]> rows = new(StringComparer.Ordinal);
    private readonly List<string> survivors = [];

    public int Mutants => rows.Values.Sum(row => row.Sum());

    public void Add(string row, string mutant, Verdict verdict)
    {
        if (verdict.IsClean)
            survivors.Add($"{row}: {mutant}");
        if (!rows.TryGetValue(row, out var counts))
            rows.Add(row, counts = new int[4]);
        counts[verdict switch { { Registers.Count: > 0 } => 0, { Violations.Count: > 0 } => 1, { Frames.Count: > 0 } => 2, _ => 3 }]++;
    }

    /// <summary>Prints the table; no mutant may be left.</summary>
    public void Close()
    {
        TestContext.Current.TestOutputHelper?.WriteLine(ToString());
        Assert.True(survivors.Count == 0, $"{survivors.Count} survive\n{string.Join("\n", survivors.Take(40))}\n{this}");
    }

    public override string ToString()
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"| {part} | Mutants | Registers | Violations | {last} | Survive |\n|---|---|---|---|---|---|\n");
        foreach (var (name, counts) in rows)
            text.Append(CultureInfo.InvariantCulture, $"| {name} | {counts.Sum():N0} | {counts[0]:N0} | {counts[1]:N0} | {counts[2]:N0} | {counts[3]:N0} |\n");
        var sums = Enumerable.Range(0, 4).Select(i => rows.Values.Sum(row => row[i])).ToList();
        return text.Append(CultureInfo.InvariantCulture, $"| all | {sums.Sum():N0} | {sums[0]:N0} | {sums[1]:N0} | {sums[2]:N0} | {sums[3]:N0} |\n").ToString();
    }
}
