using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.HostCode;

/// <summary>The ways in which a page says that a finding may be let stand.</summary>
public sealed class AllowanceTests
{
    private const string Fault = "#pragma warning disable RL9999\nnamespace Larkfield.Host { static class Own { public static bool Is(RadioLint.ReportLine line) => line.IsFrom(\"shed\"); } }";

    private const string Clash = """
        radiolint: 1
        network: larkfield-apiary
        region: GB
        air: { channel: 74, rate: 250 kbps }
        nodes:
          hive-1: { board: atmega328p, pins: { ce: D9, csn: D10 } }
          hive1: { board: atmega328p, pins: { ce: D9, csn: D10 } }
        rules:

        """;

    [Fact]
    public async Task The_manifest_sets_the_severity_of_a_rule_on_code()
    {
        Assert.Equal(["RL9004 Info"], await Of(Program("")));
        Assert.Equal(["RL9004 Error"], await Of(Program("  RL9004: error\n")));
        Assert.Empty(await Of(Program("  RL9004: silent\n")));
    }

    [Fact]
    public async Task A_pragma_reaches_the_lines_around_it() =>
        Assert.Empty(await Of(Program("") with { Sources = [Fault.Replace("RL9999", "RL9004", StringComparison.Ordinal)] }));

    // What `.globalconfig` sets comes to the compiler as options for all trees.
    [Fact]
    public async Task The_project_has_the_last_word()
    {
        Assert.Empty(await Of(Program("  RL9004: error\n"), new Config("RL9004", ReportDiagnostic.Suppress)));
        Assert.Equal(["RL9004 Warning"], await Of(Program("  RL9004: error\n"), new Config("RL9004", ReportDiagnostic.Warn)));
    }

    [Theory]
    [InlineData("", DiagnosticSeverity.Warning)]
    [InlineData("  RL9022: error\n", DiagnosticSeverity.Error)]
    [InlineData("  RL9022: info\n", DiagnosticSeverity.Info)]
    [InlineData("  RL9022: silent\n", null)]
    public void The_manifest_sets_the_severity_of_its_own_clashes(string rules, DiagnosticSeverity? severity) =>
        Assert.Equal(severity, HostProgram.Of(Clash + rules).Run().Result.Diagnostics.Select(one => (DiagnosticSeverity?)one.Severity).SingleOrDefault());

    [Fact]
    public async Task The_manifest_does_not_reach_a_record_or_the_platform()
    {
        var record = Program("  RL9004: silent\n  RL9023: silent\n");
        record = record with { Files = record.Files.Add(("/host/larkfield-apiary.radio.issued.json", """{ "now": { "nodes": { "shed": { "digest": "00000000" } } } }""")) };
        Assert.Equal(["RL9023 Warning"], await Of(record));
        Assert.Empty(await Of(record, new Config("RL9023", ReportDiagnostic.Suppress)));
        var old = Program("  RL9025: silent\n") with { Target = Target.Net80 with { Language = LanguageVersion.CSharp9 } };
        Assert.Equal(["RL9025"], old.Run().Result.Diagnostics.Select(one => one.Id));
    }

    private static HostProgram Program(string rules)
    {
        var apiary = File.ReadAllText(Repository.ApiaryPath);
        Assert.Contains("\nrules:\n", apiary, StringComparison.Ordinal);
        return HostProgram.Of(apiary.Replace("\nrules:\n", "\nrules:\n" + rules, StringComparison.Ordinal), "larkfield-apiary.radio.yaml") with { Sources = [Fault] };
    }

    private static async Task<IEnumerable<string>> Of(HostProgram program, SyntaxTreeOptionsProvider? config = null)
    {
        var (compilation, _) = program.Run();
        compilation = compilation.WithOptions(((CSharpCompilationOptions)compilation.Options).WithSyntaxTreeOptionsProvider(config));
        return (await Diagnosed.Of(compilation, program)).Where(one => one.Id.StartsWith("RL9", StringComparison.Ordinal)).Select(one => $"{one.Id} {one.Severity}");
    }

    /// <summary>A `.globalconfig` with one line.</summary>
    private sealed class Config(string id, ReportDiagnostic severity) : SyntaxTreeOptionsProvider
    {
        public override GeneratedKind IsGenerated(SyntaxTree tree, CancellationToken cancellationToken) => GeneratedKind.Unknown;

        public override bool TryGetDiagnosticValue(SyntaxTree tree, string diagnosticId, CancellationToken cancellationToken, out ReportDiagnostic found) =>
            TryGetGlobalDiagnosticValue(diagnosticId, cancellationToken, out found);

        public override bool TryGetGlobalDiagnosticValue(string diagnosticId, CancellationToken cancellationToken, out ReportDiagnostic found)
        {
            found = severity;
            return diagnosticId == id;
        }
    }
}
