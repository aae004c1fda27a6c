using System.Reflection;
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.Text;

namespace RadioLint.Mutation;

/// <summary>The sources of RadioLint.Core as its net10.0 build compiles them, with the tests that were built against it.</summary>
internal sealed class CoreSources
{
    private readonly string root;
    private readonly string built;
    private readonly CSharpParseOptions options;
    private readonly CSharpCompilation compilation;

    public CoreSources(string root, string configuration)
    {
        this.root = Path.Combine(root, "src", "RadioLint.Core");
        built = Path.Combine(this.root, "obj", configuration, "net10.0");
        Tests = Path.Combine(root, "tests", "RadioLint.Core.Tests", "bin", configuration, "net10.0");
        options = new(LanguageVersion.Latest, DocumentationMode.None, SourceCodeKind.Regular, ["NET", "NET10_0", .. Enumerable.Range(5, 6).Select(version => $"NET{version}_0_OR_GREATER")]);
        foreach (var path in Directory.EnumerateFiles(this.root, "*.cs", SearchOption.AllDirectories).Concat(Directory.EnumerateFiles(built, "*.cs")))
        {
            var file = Path.GetRelativePath(this.root, path).Replace('\\', '/');
            if (file.Split('/')[0] is "bin" or "Compatibility" || file.StartsWith("obj/", StringComparison.Ordinal) && !path.StartsWith(built, StringComparison.Ordinal))
                continue;
            Trees[file] = Parse(file, File.ReadAllText(path));
        }
        var beside = ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator)
            .Where(path => Path.GetDirectoryName(path) == Path.GetDirectoryName(typeof(object).Assembly.Location))
            .Concat(["YamlDotNet.dll", "Scriban.Signed.dll"])
            .Select(path => MetadataReference.CreateFromFile(Path.Combine(Tests, path)));
        compilation = CSharpCompilation.Create(
            "RadioLint.Core", Trees.Values, beside,
            new CSharpCompilationOptions(OutputKind.DynamicallyLinkedLibrary, optimizationLevel: OptimizationLevel.Release, nullableContextOptions: NullableContextOptions.Enable, deterministic: true)
                .WithGeneralDiagnosticOption(ReportDiagnostic.Suppress));
    }

    /// <summary>Where the built tests are.</summary>
    public string Tests { get; }

    /// <summary>By path below the project.</summary>
    public SortedDictionary<string, SyntaxTree> Trees { get; } = new(StringComparer.Ordinal);

    /// <summary>The type that an expression is turned into where it stands.</summary>
    public string TypeAt(string file, SyntaxNode expression) =>
        compilation.GetSemanticModel(Trees[file]).GetTypeInfo(expression).ConvertedType!.ToDisplayString(SymbolDisplayFormat.FullyQualifiedFormat);

    /// <summary>All sources, some of them with other text, and one more.</summary>
    public CSharpCompilation With(IEnumerable<KeyValuePair<string, string>> changed, string added)
    {
        var result = compilation.AddSyntaxTrees(Parse("Switch.cs", added));
        foreach (var (file, text) in changed)
            result = result.ReplaceSyntaxTree(Trees[file], Parse(file, text));
        return result;
    }

    /// <summary>Writes the assembly with the resources that the built one has.</summary>
    public void Emit(CSharpCompilation mutated, string path)
    {
        using var stream = File.Create(path);
        var result = mutated.Emit(stream, manifestResources: Resources(Path.Combine(Tests, "RadioLint.Core.dll")));
        if (!result.Success)
            throw new InvalidOperationException($"The mutated Core does not compile: {result.Diagnostics.First(each => each.Severity is DiagnosticSeverity.Error)}");
    }

    private static List<ResourceDescription> Resources(string assembly)
    {
        using var reader = new PEReader(File.OpenRead(assembly));
        var metadata = reader.GetMetadataReader();
        var start = reader.PEHeaders.CorHeader!.ResourcesDirectory.RelativeVirtualAddress;
        var found = new List<ResourceDescription>();
        foreach (var resource in metadata.ManifestResources.Select(metadata.GetManifestResource))
        {
            var blob = reader.GetSectionData(start + (int)resource.Offset).GetReader();
            var bytes = blob.ReadBytes(blob.ReadInt32());
            found.Add(new(metadata.GetString(resource.Name), () => new MemoryStream(bytes), isPublic: true));
        }
        return found;
    }

    private SyntaxTree Parse(string file, string text) => CSharpSyntaxTree.ParseText(SourceText.From(text, System.Text.Encoding.UTF8), options, file);
}
