using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.HostCode;

/// <summary>Correct host code in many forms: no rule speaks about any of it.</summary>
public sealed class VariedTests
{
    private static readonly string Folder = Path.Combine(Repository.Tests, "HostCode", "Varied");

    public static TheoryData<string> Files() => [.. Directory.EnumerateFiles(Folder, "*.cs.txt").Select(file => Path.GetFileName(file)!).Order(StringComparer.Ordinal)];

    [Theory, MemberData(nameof(Files))]
    public async Task Nothing_is_said(string file)
    {
        var program = HostProgram.OfApiary() with { Target = Target.Net100.WithSpi.WithPorts, Sources = [await File.ReadAllTextAsync(Path.Combine(Folder, file), TestContext.Current.CancellationToken)] };
        var (compilation, _) = program.Run();
        // The one with top-level statements is a program by itself, the others are libraries.
        if (file.StartsWith("TopLevel", StringComparison.Ordinal))
            compilation = compilation.WithOptions(((CSharpCompilationOptions)compilation.Options).WithOutputKind(OutputKind.ConsoleApplication));
        Quiet.Compiles(string.Join('\n', compilation.GetDiagnostics(TestContext.Current.CancellationToken).Where(one => one.Severity is DiagnosticSeverity.Error)));
        Quiet.Compiles(string.Join('\n', (await Diagnosed.Of(compilation, program)).Where(one => one.Id.StartsWith("RL9", StringComparison.Ordinal)).Select(Diagnosed.Shown)));
    }
}
