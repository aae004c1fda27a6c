namespace RadioLint.Benchmarks;

/// <summary>Headers a second.</summary>
internal static class EmitBudget
{
    public static void Measure(Budgets budgets) => _ = budgets;
}
