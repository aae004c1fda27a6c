using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.Text;

namespace RadioLint.Benchmarks;

/// <summary>What the source generator costs between two keystrokes.</summary>
internal static class GeneratorBudget
{
    private const int Nodes = 100;
    private const int Sources = 20;
    private const int Rounds = 31;

    // An editor has been open for a while; until then its code is compiled anew at every run.
    private const int WarmUp = 100;

    public static void Measure(Budgets budgets)
    {
        var host = new Host(LargeManifest.WrittenOut(Nodes));
        for (var i = 0; i < WarmUp; i++)
        {
            host.EditManifest();
            host.EditCode();
        }
        var times = Stopwatches.Medians(Rounds, host.EditManifest, host.EditCode);
        budgets.AtMost($"generator, an edit of a manifest of {Nodes} nodes beside {Sources} files of C#: whole run, generated code added", times[0], 20, " ms");
        budgets.AtMost("generator, an edit of C#: the same run, nothing to generate", times[1], 2, " ms");
    }

    /// <summary>A host program in an editor.</summary>
    private sealed class Host
    {
        private static readonly CSharpParseOptions Parsing = new(LanguageVersion.CSharp13);

        private readonly string text;
        private GeneratorDriver driver;
        private Compilation compilation;
        private AdditionalText manifest;
        private string generated;
        private int edits;

        public Host(string text)
        {
            this.text = text;
            manifest = new Manifest(text);
            compilation = CSharpCompilation.Create(
                "Field", Enumerable.Range(0, Sources).Select(i => Tree(Code(i, 0), i)), References(), new(OutputKind.DynamicallyLinkedLibrary));
            driver = CSharpGeneratorDriver.Create([AnalyzerFolder.Generator()], [manifest], Parsing);
            driver = driver.RunGeneratorsAndUpdateCompilation(compilation, out var whole, out _);
            var faults = whole.GetDiagnostics().Where(one => one.Severity is DiagnosticSeverity.Error).Take(3).ToList();
            if (faults.Count > 0)
                throw new InvalidOperationException(string.Join('\n', faults));
            generated = Air();
        }

        /// <summary>Another channel: the code of every node changes.</summary>
        public void EditManifest()
        {
            var now = new Manifest(text.Replace("channel: 74", FormattableString.Invariant($"channel: {40 + (++edits % 40)}"), StringComparison.Ordinal));
            driver = driver.ReplaceAdditionalText(manifest, now);
            manifest = now;
            driver = driver.RunGeneratorsAndUpdateCompilation(compilation, out _, out _);
            var before = generated;
            generated = Air();
            if (generated == before)
                throw new InvalidOperationException("the edit of the manifest changed no code");
        }

        /// <summary>Another number in one method.</summary>
        public void EditCode()
        {
            var file = ++edits % Sources;
            compilation = compilation.ReplaceSyntaxTree(compilation.SyntaxTrees.ElementAt(file), Tree(Code(file, edits), file));
            driver = driver.RunGeneratorsAndUpdateCompilation(compilation, out var whole, out _);
            if (Air() != generated || whole.SyntaxTrees.Count() <= Sources)
                throw new InvalidOperationException("the edit of C# changed what was generated");
        }

        private string Air() => driver.GetRunResult().Results[0].GeneratedSources.First(file => file.HintName == "Measured.g.cs").SourceText.ToString();

        private static SyntaxTree Tree(string code, int file) => CSharpSyntaxTree.ParseText(code, Parsing, FormattableString.Invariant($"Desk{file}.cs"));

        private static string Code(int file, int number) => string.Create(CultureInfo.InvariantCulture, $$"""
            namespace Field;

            internal static class Desk{{file}}
            {
                public static int Number => {{number}} + Measured.Air.Channel + Measured.Nodes.Node{{file}}.Name.Length;

                public static double WeightOf(byte[] packet) => Measured.Payloads.Reading.TryRead(packet, out var reading) ? reading.Weight : 0;
            }
            """);

        private static IEnumerable<MetadataReference> References() =>
            Directory.EnumerateFiles(Path.GetDirectoryName(typeof(object).Assembly.Location)!, "System.*.dll")
                .Where(IsManaged).Select(file => (MetadataReference)MetadataReference.CreateFromFile(file));

        private static bool IsManaged(string file)
        {
            using var reader = new System.Reflection.PortableExecutable.PEReader(File.OpenRead(file));
            return reader.HasMetadata;
        }
    }

    private sealed class Manifest(string text) : AdditionalText
    {
        private readonly SourceText text = SourceText.From(text);

        public override string Path => "/field/measured.radio.yaml";

        public override SourceText GetText(CancellationToken cancellationToken = default) => text;
    }
}
