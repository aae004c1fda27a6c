namespace RadioLint.Mutation;

/// <summary>The tables of docs/performance.md.</summary>
internal static class Report
{
    public static void Print(List<Mutant> all, SortedDictionary<int, Outcome> outcomes, Coverage coverage)
    {
        Console.WriteLine($"{all.Count} mutants; {outcomes.Count} run with {coverage.Count} test cases");
        Console.WriteLine();
        Console.WriteLine("| Folder | Mutants | Run | Killed | Timeouts | Survived | of them reached by no test | Score |");
        Console.WriteLine("|---|---|---|---|---|---|---|---|");
        foreach (var group in all.GroupBy(mutant => mutant.Folder).OrderBy(group => group.Key, StringComparer.Ordinal))
            Row(group.Key, [.. group], outcomes, coverage);
        Row("all", all, outcomes, coverage);
        Console.WriteLine();
        Console.WriteLine("| Class | Run | Survived |");
        Console.WriteLine("|---|---|---|");
        foreach (var group in all.Where(mutant => outcomes.ContainsKey(mutant.Id)).GroupBy(mutant => mutant.Class).OrderBy(group => group.Key, StringComparer.Ordinal))
            Console.WriteLine($"| {group.Key} | {group.Count()} | {group.Count(mutant => outcomes[mutant.Id] == Outcome.Survived)} |");
    }

    private static void Row(string name, List<Mutant> mutants, SortedDictionary<int, Outcome> outcomes, Coverage coverage)
    {
        var run = mutants.Where(mutant => outcomes.ContainsKey(mutant.Id)).ToList();
        int Of(Outcome outcome) => run.Count(mutant => outcomes[mutant.Id] == outcome);
        var unreached = run.Count(mutant => outcomes[mutant.Id] == Outcome.Survived && coverage.TestsOf(mutant).Count == 0);
        var score = run.Count == 0 ? "" : FormattableString.Invariant($"{100.0 * (run.Count - Of(Outcome.Survived)) / run.Count:0.0} %");
        Console.WriteLine($"| {name} | {mutants.Count} | {run.Count} | {Of(Outcome.Killed)} | {Of(Outcome.Timeout)} | {Of(Outcome.Survived)} | {unreached} | {score} |");
    }
}
