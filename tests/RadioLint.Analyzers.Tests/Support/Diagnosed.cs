using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Diagnostics;
using RadioLint.Analyzers.Checking;
using RadioLint.Analyzers.HostCode;
using Xunit;

namespace RadioLint.Tests.Analyzers.Support;

/// <summary>What the analyzers say about a host program with its generated code.</summary>
public static class Diagnosed
{
    public static ImmutableArray<DiagnosticAnalyzer> Analyzers { get; } = [new ManifestAnalyzer(), new HostCodeAnalyzer()];

    /// <summary>Every diagnostic of RadioLint's analyzers, in the order of places.</summary>
    public static async Task<ImmutableArray<Diagnostic>> Of(HostProgram program, params DiagnosticAnalyzer[] analyzers)
    {
        var (compilation, _) = program.Run();
        return await Of(compilation, program, analyzers);
    }

    public static async Task<ImmutableArray<Diagnostic>> Of(Compilation compilation, HostProgram program, params DiagnosticAnalyzer[] analyzers)
    {
        ImmutableArray<AdditionalText> files = [.. program.Files.Select(file => new MemoryFile(file.Path, file.Text))];
        var options = new AnalyzerOptions(files, new Properties([.. program.Properties]));
        var faults = new List<string>();
        var with = compilation.WithAnalyzers(
            analyzers.Length == 0 ? Analyzers : [.. analyzers],
            new CompilationWithAnalyzersOptions(options, (fault, analyzer, _) => faults.Add($"{analyzer}: {fault}"), concurrentAnalysis: true, logAnalyzerExecutionTime: false));
        var found = await with.GetAnalyzerDiagnosticsAsync(TestContext.Current.CancellationToken);
        Assert.True(faults.Count == 0, string.Join("\n", faults));
        return [.. found.OrderBy(one => one.Location.GetLineSpan().Path, StringComparer.Ordinal).ThenBy(one => one.Location.SourceSpan.Start).ThenBy(one => one.Id, StringComparer.Ordinal)];
    }

    /// <summary>The C# ones alone, as `RL9004 12:5 text`.</summary>
    public static async Task<IReadOnlyList<string>> InCode(HostProgram program) =>
        [.. (await Of(program)).Where(one => one.Location.IsInSource).Select(Shown)];

    public static string Shown(Diagnostic one)
    {
        var at = one.Location.GetLineSpan().StartLinePosition;
        return string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{one.Id} {at.Line + 1}:{at.Character + 1} {one.GetMessage(System.Globalization.CultureInfo.InvariantCulture)}");
    }
}
