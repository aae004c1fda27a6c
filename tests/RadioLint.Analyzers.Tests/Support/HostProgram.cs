using System.Collections.Immutable;
using System.Reflection;
using System.Runtime.Loader;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.Diagnostics;
using Microsoft.CodeAnalysis.Text;
using RadioLint.Analyzers.Generation;
using Xunit;

namespace RadioLint.Tests.Analyzers.Support;

/// <summary>A file of the project's additional files, in memory.</summary>
public sealed class MemoryFile(string path, string text) : AdditionalText
{
    public override string Path => path;

    public override SourceText GetText(CancellationToken cancellationToken = default) => SourceText.From(text);
}

/// <summary>Properties of the project, as the compiler hands them to the generator.</summary>
public sealed class Properties(params (string Name, string Value)[] properties) : AnalyzerConfigOptionsProvider
{
    private readonly Options options = new(properties);

    public override AnalyzerConfigOptions GlobalOptions => options;

    public override AnalyzerConfigOptions GetOptions(SyntaxTree tree) => options;

    public override AnalyzerConfigOptions GetOptions(AdditionalText textFile) => options;

    private sealed class Options((string Name, string Value)[] properties) : AnalyzerConfigOptions
    {
        public override bool TryGetValue(string key, out string value)
        {
            value = properties.FirstOrDefault(one => "build_property." + one.Name == key).Value ?? "";
            return value.Length > 0;
        }
    }
}

/// <summary>A host program with manifests among its additional files.</summary>
public sealed record HostProgram
{
    public Target Target { get; init; } = Target.Net100;
    public ImmutableArray<(string Path, string Text)> Files { get; init; } = [];
    public ImmutableArray<(string Name, string Value)> Properties { get; init; } = [("RootNamespace", "Larkfield.Host")];
    public ImmutableArray<string> Sources { get; init; } = [];

    public static HostProgram Of(string manifest, string name = "field.radio.yaml") => new() { Files = [($"/host/{name}", manifest)] };

    public static HostProgram OfApiary() => Of(File.ReadAllText(Repository.ApiaryPath), "larkfield-apiary.radio.yaml");

    public CSharpParseOptions Parsing => new(Target.Language, DocumentationMode.Diagnose);

    public CSharpCompilation Before => CSharpCompilation.Create(
        "Larkfield.Host", Sources.Select((source, i) => CSharpSyntaxTree.ParseText(source, Parsing, $"Own{i}.cs")), Target.References,
        new(OutputKind.DynamicallyLinkedLibrary, nullableContextOptions: NullableContextOptions.Enable, checkOverflow: true, deterministic: true,
            // As the SDK sets them: a library of an older platform is no fault.
            specificDiagnosticOptions: [new("CS1701", ReportDiagnostic.Suppress), new("CS1702", ReportDiagnostic.Suppress)]));

    public GeneratorDriver Driver => CSharpGeneratorDriver.Create(
        [new NetworkGenerator().AsSourceGenerator()], Files.Select(file => new MemoryFile(file.Path, file.Text)), Parsing,
        new Properties([.. Properties]), new(IncrementalGeneratorOutputKind.None, trackIncrementalGeneratorSteps: true));

    public (Compilation Compilation, GeneratorRunResult Result) Run()
    {
        var driver = Driver.RunGeneratorsAndUpdateCompilation(Before, out var compilation, out _, TestContext.Current.CancellationToken);
        var result = Assert.Single(driver.GetRunResult().Results);
        Assert.Null(result.Exception);
        return (compilation, result);
    }

    /// <summary>Everything that the compiler has to say, hidden remarks aside; the generator's own remarks not among it.</summary>
    public string Complaints() => Complaints(Run().Compilation);

    public static string Complaints(Compilation compilation) => string.Join(
        '\n', compilation.GetDiagnostics(TestContext.Current.CancellationToken).Where(one => one.Severity > DiagnosticSeverity.Hidden).Select(one => one.ToString()).Take(20));

    /// <summary>The compiled program, loaded.</summary>
    public Assembly Load()
    {
        var (compilation, _) = Run();
        using var image = new MemoryStream();
        var emitted = compilation.Emit(image, cancellationToken: TestContext.Current.CancellationToken);
        Assert.True(emitted.Success, string.Join('\n', emitted.Diagnostics.Take(20)));
        image.Position = 0;
        return new AssemblyLoadContext("host", isCollectible: true).LoadFromStream(image);
    }
}

/// <summary>An assertion that shows what was said.</summary>
public static class Quiet
{
    public static void Compiles(string complaints) => Assert.True(complaints.Length == 0, complaints);
}
