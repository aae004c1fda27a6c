using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Text;

namespace RadioLint.Analyzers.Generation;

/// <summary>The little that the generator has to say itself.</summary>
internal static class Remarks
{
    private const string Category = "RadioLint";

    private static readonly DiagnosticDescriptor Clash = new(
        "RL9022", "Generated names clash", "{0}", Category, DiagnosticSeverity.Warning, isEnabledByDefault: true);

    private static readonly DiagnosticDescriptor Unfit = new(
        "RL9025", "Project cannot hold the generated code", "this project has {0}", Category, DiagnosticSeverity.Error, isEnabledByDefault: true);

    private static readonly DiagnosticDescriptor Failed = new(
        "RL9026", "Generator failed", "RadioLint failed on this manifest and generated nothing from it, a defect of RadioLint ({0}): report it with the manifest",
        Category, DiagnosticSeverity.Warning, isEnabledByDefault: true);

    public static Diagnostic OfClash(string path, string message) => Diagnostic.Create(Clash, StartOf(path), message);

    public static Diagnostic OfPlatform(string path, string lack) => Diagnostic.Create(Unfit, StartOf(path), lack);

    public static Diagnostic OfFailure(string path, string failure) => Diagnostic.Create(Failed, StartOf(path), failure);

    private static Location StartOf(string path) => Location.Create(path, default, default);
}
