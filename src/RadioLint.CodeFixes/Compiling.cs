using Microsoft.CodeAnalysis;

namespace RadioLint.CodeFixes;

/// <summary>What the compiler says of changed code.</summary>
internal static class Compiling
{
    /// <summary>Whether a changed file has no error that it had not before, nor one of a kind more often. Other files are not looked at.</summary>
    public static bool IsNoWorse(SemanticModel before, SyntaxNode root, CancellationToken cancel)
    {
        var tree = before.SyntaxTree.WithRootAndOptions(root, before.SyntaxTree.Options);
        var after = Errors(before.Compilation.ReplaceSyntaxTree(before.SyntaxTree, tree).GetSemanticModel(tree), cancel);
        if (after.Count == 0)
            return true;
        var had = Errors(before, cancel);
        return after.All(error => had.TryGetValue(error.Key, out var count) && error.Value <= count);
    }

    private static Dictionary<string, int> Errors(SemanticModel model, CancellationToken cancel) => model.GetDiagnostics(cancellationToken: cancel)
        .Where(one => one.Severity is DiagnosticSeverity.Error && !one.IsSuppressed)
        .GroupBy(one => one.Id, StringComparer.Ordinal).ToDictionary(same => same.Key, same => same.Count(), StringComparer.Ordinal);
}
