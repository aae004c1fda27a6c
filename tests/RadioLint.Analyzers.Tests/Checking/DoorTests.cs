using System.Collections.Immutable;
using System.Text;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.Diagnostics;
using Microsoft.CodeAnalysis.Text;
using RadioLint.Analyzers.Checking;
using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.Checking;

/// <summary>What comes in by the compiler's door: manifests that are missing, records of other plans, defects of our own, edits that change nothing.</summary>
public sealed class DoorTests
{
    [Fact]
    public async Task A_project_without_a_manifest_is_told()
    {
        var only = Assert.Single(await Diagnosed.Of(new HostProgram { Sources = ["class C { }"] }));
        Assert.Equal(("RL9001", DiagnosticSeverity.Warning, LocationKind.None), (only.Id, only.Severity, only.Location.Kind));
    }

    [Fact]
    public async Task Firmware_of_another_plan_is_told_at_the_digest()
    {
        var record = """
            { "format": 1, "now": { "nodes": {
              "shed": { "digest": "D084A95A" },
              "office": { "digest": "00000000" },
              "gone": { "digest": "00000000" } } } }
            """;
        var program = HostProgram.OfApiary();
        program = program with { Files = [.. program.Files, ("/host/larkfield-apiary.radio.issued.json", record), ("/host/other.radio.issued.json", record)] };
        var only = Assert.Single(await Diagnosed.Of(program, new ManifestAnalyzer()), one => one.Severity >= DiagnosticSeverity.Warning);
        Assert.Equal("RL9023 3:25", Diagnosed.Shown(only)[..11]);
        Assert.Contains("`office`", only.GetMessage(System.Globalization.CultureInfo.InvariantCulture), StringComparison.Ordinal);
    }

    // Whatever a record holds, it takes nothing down.
    [Theory, InlineData(""), InlineData("[]"), InlineData("{\"now\": 1}"), InlineData("{\"now\": {\"nodes\": {\"shed\": {\"digest\": []}}}}"), InlineData("{\"now\": {\"nodes\": {\"shed\"")]
    public async Task A_record_that_does_not_read_is_nobodys_business_here(string record)
    {
        var program = HostProgram.OfApiary();
        program = program with { Files = [.. program.Files, ("/host/larkfield-apiary.radio.issued.json", record)] };
        Assert.DoesNotContain(await Diagnosed.Of(program, new ManifestAnalyzer()), one => one.Severity >= DiagnosticSeverity.Warning);
    }

    [Theory, InlineData(false), InlineData(true)]
    public async Task A_defect_is_one_warning_even_where_warnings_are_errors(bool warningsAreErrors)
    {
        var options = new AnalyzerOptions([new Broken()]);
        var compilation = CSharpCompilation.Create("Host", [], Target.Net100.References, new(
            OutputKind.DynamicallyLinkedLibrary, generalDiagnosticOption: warningsAreErrors ? ReportDiagnostic.Error : ReportDiagnostic.Default));
        var found = await compilation.WithAnalyzers(Diagnosed.Analyzers, options).GetAnalyzerDiagnosticsAsync(TestContext.Current.CancellationToken);
        var only = Assert.Single(found);
        Assert.Equal(("RL9026", DiagnosticSeverity.Warning, "/host/broken.radio.yaml"), (only.Id, only.Severity, only.Location.GetLineSpan().Path));
        Assert.Contains("NotSupportedException", only.GetMessage(System.Globalization.CultureInfo.InvariantCulture), StringComparison.Ordinal);
    }

    [Fact]
    public void An_edit_of_code_checks_no_manifest_again()
    {
        var manifest = new Kept("/host/larkfield-apiary.radio.yaml", File.ReadAllText(Repository.ApiaryPath));
        var other = new Kept("/host/boards.yaml", "boards: {}\n");
        ImmutableArray<AdditionalText> files = [manifest, other];
        var first = CheckedManifest.Of(manifest, files, TestContext.Current.CancellationToken);
        Assert.NotNull(first?.Result?.Network);
        Assert.Same(first, CheckedManifest.Of(manifest, files, TestContext.Current.CancellationToken));
        // What it may include has changed: then it is checked again.
        files = [manifest, new Kept("/host/boards.yaml", "boards: {}\n")];
        Assert.NotSame(first, CheckedManifest.Of(manifest, files, TestContext.Current.CancellationToken));
    }

    [Fact]
    public void What_an_unchanged_manifest_costs_is_not_a_plan()
    {
        var manifest = new Kept("/host/larkfield-apiary.radio.yaml", File.ReadAllText(Repository.ApiaryPath));
        ImmutableArray<AdditionalText> files = [manifest];
        CheckedManifest.Of(manifest, files, TestContext.Current.CancellationToken);
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < 100; i++)
            CheckedManifest.Of(manifest, files, TestContext.Current.CancellationToken);
        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < 100 * 1024, $"{GC.GetAllocatedBytesForCurrentThread() - before} bytes for 100 questions");
    }

    [Fact]
    public void Every_rule_is_some_analyzers() => Assert.Equal(
        RadioLint.Rules.Catalogue.All.Except(RadioLint.Rules.Catalogue.OfReadback).Except(RadioLint.Rules.Catalogue.OfSurvey).Select(rule => rule.Id).Where(id => id != "RL9025").Order(StringComparer.Ordinal),
        Diagnosed.Analyzers.SelectMany(analyzer => analyzer.SupportedDiagnostics).Select(one => one.Id).Distinct().Order(StringComparer.Ordinal));

    private sealed class Kept(string path, string text) : AdditionalText
    {
        private readonly SourceText source = SourceText.From(text);

        public override string Path => path;

        public override SourceText GetText(CancellationToken cancellationToken = default) => source;
    }

    private sealed class Broken : AdditionalText
    {
        private readonly SourceText text = new BrokenText();

        public override string Path => "/host/broken.radio.yaml";

        public override SourceText GetText(CancellationToken cancellationToken = default) => text;
    }

    private sealed class BrokenText : SourceText
    {
        public override char this[int position] => throw new NotSupportedException();

        public override Encoding? Encoding => null;

        public override int Length => 1;

        public override void CopyTo(int sourceIndex, char[] destination, int destinationIndex, int count) => throw new NotSupportedException();
    }
}
