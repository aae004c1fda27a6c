using System.Collections.Immutable;
using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.Diagnostics;
using RadioLint.Analyzers.Checking;
using RadioLint.Findings;
using RadioLint.Rules;
using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.Checking;

/// <summary>What the compiler says about a manifest is what Core says: same ID, place, message, severity, other places.</summary>
public sealed class ManifestFindingTests
{
    private static readonly string Fixtures = Path.Combine(Repository.Root, "tests", "RadioLint.Core.Tests", "Rules");

    [Fact]
    public async Task Every_finding_of_every_fixture_stands_at_its_place()
    {
        var rules = new HashSet<string>(StringComparer.Ordinal);
        var files = Directory.EnumerateFiles(Fixtures, "*.radio.*", SearchOption.AllDirectories).Where(file => file.EndsWith(".yaml", StringComparison.Ordinal) || (file.EndsWith(".json", StringComparison.Ordinal) && !file.EndsWith(".issued.json", StringComparison.Ordinal))).Order(StringComparer.Ordinal).ToList();
        Assert.True(files.Count > 150, $"{files.Count} fixtures");
        foreach (var file in files)
        {
            // A compiler decodes files itself: what is no text never reaches us as such.
            var text = await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken);
            var others = Directory.EnumerateFiles(Path.GetDirectoryName(file)!).Where(other => other != file && !other.Contains(".radio.", StringComparison.Ordinal) && (other.EndsWith(".yaml", StringComparison.Ordinal) || other.EndsWith(".json", StringComparison.Ordinal)));
            var path = $"/host/{Path.GetFileName(file)}";
            var (record, recordPath) = (Path.ChangeExtension(file, ".issued.json"), Path.ChangeExtension(path, ".issued.json"));
            var program = HostProgram.Of(text, Path.GetFileName(file)) with
            {
                Files = [(path, text), .. others.Select(other => ($"/host/{Path.GetFileName(other)}", File.ReadAllText(other))), .. File.Exists(record) ? [(recordPath, File.ReadAllText(record))] : Array.Empty<(string, string)>()],
            };
            var checkedByCore = Linter.Check(new RadioLint.Text.SourceText(path, text), new CheckOptions
            {
                Include = below => program.Files.FirstOrDefault(one => one.Path == "/host/" + below).Text is { } included ? System.Text.Encoding.UTF8.GetBytes(included) : null,
                Record = File.Exists(record) ? new(recordPath, await File.ReadAllBytesAsync(record, TestContext.Current.CancellationToken)) : null,
            });
            // RL9023 speaks of the record itself.
            var found = (await Diagnosed.Of(program, new ManifestAnalyzer())).Where(one => one.Id != "RL9023").Select(Shown).ToList();
            if (checkedByCore.Network is null && !checkedByCore.Findings.IsEmpty)
            {
                var only = Assert.Single(found);
                Assert.StartsWith($"RL9002 error {PlaceOf(checkedByCore.Findings[0].Place)} the manifest cannot be read: {checkedByCore.Findings[0].Message} ({checkedByCore.Findings[0].Rule.Id})", only, StringComparison.Ordinal);
                continue;
            }
            Assert.Equal(checkedByCore.Findings.Select(Shown).Order(StringComparer.Ordinal), found.Order(StringComparer.Ordinal));
            rules.UnionWith(checkedByCore.Findings.Select(finding => finding.Rule.Id));
        }
        // Nearly all rules have spoken, RL6201 among them, which needs the record; the rest are those that stop the reading, or that only `emit` or a whole run meets.
        Assert.Contains("RL6201", rules);
        Assert.True(rules.Count >= Catalogue.OfManifests.Length - Catalogue.OfEmitting.Length - Catalogue.OfRuns.Length - 6, $"{rules.Count} of {Catalogue.OfManifests.Length} rules");
    }

    [Fact]
    public async Task The_apiary_is_quiet_but_for_infos() => Assert.DoesNotContain(
        await Diagnosed.Of(HostProgram.OfApiary(), new ManifestAnalyzer()), one => one.Severity >= DiagnosticSeverity.Warning);

    [Theory]
    [InlineData("RL2101", ReportDiagnostic.Error, DiagnosticSeverity.Error)]
    [InlineData("RL2101", ReportDiagnostic.Info, DiagnosticSeverity.Info)]
    [InlineData("RL3101", ReportDiagnostic.Warn, DiagnosticSeverity.Warning)]
    public async Task The_compiler_has_the_last_word_on_severity(string id, ReportDiagnostic wanted, DiagnosticSeverity severity)
    {
        var found = await Mistakes(options => options.WithSpecificDiagnosticOptions([new(id, wanted)]));
        Assert.All(found.Where(one => one.Id == id), one => Assert.Equal(severity, one.Severity));
        Assert.Contains(found, one => one.Id == id);
    }

    [Fact]
    public async Task A_rule_that_the_project_turns_off_is_silent() =>
        Assert.DoesNotContain(await Mistakes(options => options.WithSpecificDiagnosticOptions([new("RL2101", ReportDiagnostic.Suppress)])), one => one.Id == "RL2101");

    [Fact]
    public async Task Severity_comes_from_the_manifest_where_the_project_says_nothing()
    {
        var text = await File.ReadAllTextAsync(MistakesPath, TestContext.Current.CancellationToken);
        var program = HostProgram.Of(text.Replace("\nrules:\n", "\nrules:\n  RL2101: error\n  RL2006: info\n  RL3101: silent\n", StringComparison.Ordinal));
        var found = await Diagnosed.Of(program, new ManifestAnalyzer());
        Assert.Equal(DiagnosticSeverity.Error, Assert.Single(found, one => one.Id == "RL2101").Severity);
        Assert.Equal(DiagnosticSeverity.Info, Assert.Single(found, one => one.Id == "RL2006").Severity);
        Assert.DoesNotContain(found, one => one.Id == "RL3101");
    }

    [Theory, InlineData(""), InlineData("radiolint: 1\nnodes: [[[["), InlineData("{"), InlineData("\u0000")]
    public async Task A_manifest_that_cannot_be_read_is_told_once(string text)
    {
        var only = Assert.Single(await Diagnosed.Of(HostProgram.Of(text)));
        Assert.Equal("RL9002", only.Id);
        Assert.Equal("/host/field.radio.yaml", only.Location.GetLineSpan().Path);
    }

    private static string MistakesPath => Path.Combine(Repository.Root, "docs", "examples", "larkfield-mistakes", "larkfield-mistakes.radio.yaml");

    private static async Task<ImmutableArray<Diagnostic>> Mistakes(Func<CSharpCompilationOptions, CSharpCompilationOptions> change)
    {
        var program = HostProgram.Of(await File.ReadAllTextAsync(MistakesPath, TestContext.Current.CancellationToken));
        var (compilation, _) = program.Run();
        return await Diagnosed.Of(compilation.WithOptions(change((CSharpCompilationOptions)compilation.Options)), program, new ManifestAnalyzer());
    }

    private static string Shown(Diagnostic one) =>
        $"{one.Id} {one.Severity.ToString().ToLowerInvariant()} {PlaceOf(one.Location)} {one.GetMessage(CultureInfo.InvariantCulture)}"
        + string.Concat(one.AdditionalLocations.Select(other => " see " + PlaceOf(other)));

    private static string Shown(Finding one) =>
        $"{one.Rule.Id} {one.Severity.ToString().ToLowerInvariant()} {PlaceOf(one.Place)} {one.Message}; {one.Help}"
        + string.Concat(one.Related.Select(other => " see " + PlaceOf(other.Place)));

    private static string PlaceOf(RadioLint.Text.Place place) => string.Create(
        CultureInfo.InvariantCulture, $"{place.Source.Name}({place.From.Line},{place.From.Column},{place.To.Line},{place.To.Column})");

    // As the compiler prints it: lines and columns from 1.
    private static string PlaceOf(Location location)
    {
        var span = location.GetLineSpan();
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{span.Path}({span.StartLinePosition.Line + 1},{span.StartLinePosition.Character + 1},{span.EndLinePosition.Line + 1},{span.EndLinePosition.Character + 1})");
    }
}
