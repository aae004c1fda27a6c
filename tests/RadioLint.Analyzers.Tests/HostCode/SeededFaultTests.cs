using System.Collections.Concurrent;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.Text;
using RadioLint.Rules.HostCode;
using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.HostCode;

/// <summary>Faults seeded into correct programs, one at a time: every one must be found, where it is.</summary>
public sealed class SeededFaultTests
{
    // What no rewriting of C# shows; they have tests of their own.
    private static readonly string[] Elsewhere = ["RL9001", "RL9002", "RL9023", "RL9025", "RL9026"];

    [Fact]
    public async Task Correct_programs_are_correct()
    {
        Quiet.Compiles(Programs.Whole.Complaints());
        Assert.Equal("", string.Join('\n', await Diagnosed.InCode(Programs.Whole)));
    }

    [Fact]
    public void Each_rule_has_five_faults_and_all_have_two_hundred()
    {
        var counts = Faults.All.CountBy(fault => fault.Rule).ToDictionary(StringComparer.Ordinal);
        foreach (var rule in HostRules.All.Where(rule => !Elsewhere.Contains(rule.Id, StringComparer.Ordinal)))
            Assert.True(counts.GetValueOrDefault(rule.Id) >= 5, $"{rule.Id} has {counts.GetValueOrDefault(rule.Id)} faults");
        Assert.True(Faults.All.Count() >= 200, $"{Faults.All.Count()} faults");
        Assert.Equal(Faults.All.Count(), Faults.All.Select(fault => (fault.Program, fault.Text)).Distinct().Count());
    }

    [Fact]
    public async Task Every_fault_is_found_where_it_is()
    {
        var program = Programs.Whole;
        var (whole, _) = program.Run();
        var missed = new ConcurrentBag<string>();
        var extra = new ConcurrentBag<string>();
        await Parallel.ForEachAsync(Faults.All, TestContext.Current.CancellationToken, async (fault, cancel) =>
        {
            var tree = whole.SyntaxTrees.Single(tree => tree.FilePath == $"Own{Programs.All.ToList().IndexOf(fault.Program)}.cs");
            var seeded = whole.ReplaceSyntaxTree(tree, CSharpSyntaxTree.ParseText(fault.Text, program.Parsing, tree.FilePath, cancellationToken: cancel));
            var found = (await Diagnosed.Of(seeded, program)).Where(one => one.Location.IsInSource).ToList();
            if (!found.Exists(one => one.Id == fault.Rule && one.Location.SourceSpan == new TextSpan(fault.Start, fault.Length)))
                missed.Add($"{fault}\n    found: {string.Join("; ", found.Select(Diagnosed.Shown))}\n    compiler: {string.Join("; ", seeded.GetDiagnostics(cancel).Where(one => one.Severity == DiagnosticSeverity.Error).Take(3))}");
            foreach (var other in found.Where(one => one.Id != fault.Rule || one.Location.SourceSpan != new TextSpan(fault.Start, fault.Length)))
                extra.Add($"{fault}\n    also: {Diagnosed.Shown(other)}");
        });
        Assert.True(missed.IsEmpty, $"{missed.Count} of {Faults.All.Count()} missed\n{string.Join('\n', missed.Order(StringComparer.Ordinal))}");
        Assert.True(extra.IsEmpty, string.Join('\n', extra.Order(StringComparer.Ordinal)));
    }
}
