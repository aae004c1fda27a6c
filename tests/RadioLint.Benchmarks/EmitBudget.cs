using RadioLint.Emit;
using RadioLint.Text;

namespace RadioLint.Benchmarks;

/// <summary>Headers a second.</summary>
internal static class EmitBudget
{
    private const int Nodes = 600;

    public static void Measure(Budgets budgets)
    {
        var network = Linter.Check(new SourceText("measured.radio.yaml", LargeManifest.WrittenOut(Nodes))).Network!;
        var time = Stopwatches.Medians(5, () =>
        {
            var set = EmitSet.Of(network, new());
            if (set.Files.Length <= Nodes)
                throw new InvalidOperationException($"only {set.Files.Length} files were made");
        })[0];
        budgets.AtLeast($"emit of {Nodes} nodes, in this process: headers a second", Nodes / (time / 1000), 2500, "");
    }
}
