using RadioLint.Planning;
using RadioLint.Text;

namespace RadioLint.Benchmarks;

/// <summary>How long a plan takes for a network with everything open.</summary>
internal static class FillBudget
{
    public static void Measure(Budgets budgets)
    {
        foreach (var nodes in new[] { 40, 1_000 })
        {
            var text = LargeManifest.WrittenOut(nodes).Replace("channel: 74, rate: 250 kbps", "channel: open, rate: open", StringComparison.Ordinal);
            var network = Linter.Check(new SourceText("measured.radio.yaml", text)).Network!;
            var time = Stopwatches.Medians(5, () =>
            {
                if (Filling.Plan(network, null) is not { Conflict.IsEmpty: true, Choices.IsEmpty: false })
                    throw new InvalidOperationException("nothing was chosen");
            })[0];
            budgets.Note($"fill of {nodes:N0} nodes written out, rate and channel open, in this process", $"{time:0} ms");
        }
    }
}
