using System.Globalization;

namespace RadioLint.Benchmarks;

/// <summary>Figures against their budgets, printed as a table.</summary>
internal sealed class Budgets
{
    private readonly List<(string What, string Measured, string Budget, string Verdict)> rows = [];

    public bool AnyMissed { get; private set; }

    public void AtMost(string what, double measured, double most, string unit) => Add(what, measured, $"at most {Text(most)}{unit}", measured <= most, unit);

    public void AtLeast(string what, double measured, double least, string unit) => Add(what, measured, $"at least {Text(least)}{unit}", measured >= least, unit);

    public void Note(string what, string measured) => rows.Add((what, measured, "", ""));

    public void Print()
    {
        Console.WriteLine();
        Console.WriteLine("| What | Measured | Budget | |");
        Console.WriteLine("|---|---|---|---|");
        foreach (var (what, measured, budget, verdict) in rows)
            Console.WriteLine($"| {what} | {measured} | {budget} | {verdict} |");
    }

    private void Add(string what, double measured, string budget, bool isMet, string unit)
    {
        AnyMissed |= !isMet;
        rows.Add((what, Text(measured) + unit, budget, isMet ? "pass" : "miss"));
    }

    private static string Text(double value) => value.ToString(value >= 100 ? "N0" : "0.0#", CultureInfo.InvariantCulture);
}
