using System.Collections;
using System.Diagnostics;
using System.Globalization;
using System.Reflection;
using System.Text;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using RadioLint.Analyzers.Generation;
using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.Generation;

/// <summary>What the compiler remembers between two keystrokes.</summary>
public sealed class StepTests
{
    private static readonly string Apiary = File.ReadAllText(Repository.ApiaryPath);

    [Fact]
    public void An_edit_of_unrelated_code_recomputes_nothing()
    {
        var program = HostProgram.OfApiary() with { Sources = ["class A;"] };
        var compilation = program.Before;
        var driver = program.Driver.RunGenerators(compilation, TestContext.Current.CancellationToken);
        var after = compilation.ReplaceSyntaxTree(compilation.SyntaxTrees[0], CSharpSyntaxTree.ParseText("class A { int b; }", program.Parsing, cancellationToken: TestContext.Current.CancellationToken));

        var run = driver.RunGenerators(after, TestContext.Current.CancellationToken).GetRunResult().Results.Single();
        Assert.Equal(NetworkGenerator.Steps.Order(), run.TrackedSteps.Keys.Intersect(NetworkGenerator.Steps).Order());
        var steps = OurSteps(run).Concat(run.TrackedOutputSteps.SelectMany(output => output.Value)).ToList();
        Assert.NotEmpty(run.TrackedOutputSteps);
        Assert.All(steps, step => Assert.NotEmpty(step.Outputs));
        Assert.All(steps.SelectMany(step => step.Outputs), output =>
            Assert.True(output.Reason is IncrementalStepRunReason.Cached or IncrementalStepRunReason.Unchanged, $"{output.Reason}"));
    }

    [Theory]
    [InlineData("channel: 74 ", "channel: 76 ", true)]
    [InlineData("temperature: int16 0.01 degC", "temperature: int16 0.1 degC", true)]
    [InlineData("# manifest format", "# the format", false)]
    public void An_edit_of_the_manifest_gives_other_code_where_it_means_something(string old, string now, bool isModified)
    {
        Assert.Contains(old, Apiary, StringComparison.Ordinal);
        var program = HostProgram.OfApiary();
        var file = new MemoryFile(program.Files[0].Path, program.Files[0].Text);
        var driver = CSharpGeneratorDriver.Create(
                [new NetworkGenerator().AsSourceGenerator()], [file], program.Parsing, new Properties([.. program.Properties]),
                new(IncrementalGeneratorOutputKind.None, trackIncrementalGeneratorSteps: true))
            .RunGenerators(program.Before, TestContext.Current.CancellationToken)
            .ReplaceAdditionalText(file, new MemoryFile(file.Path, Apiary.Replace(old, now, StringComparison.Ordinal)))
            .RunGenerators(program.Before, TestContext.Current.CancellationToken);

        var run = driver.GetRunResult().Results.Single();
        Assert.Equal([IncrementalStepRunReason.Modified], Reasons(run, NetworkGenerator.ManifestsStep));
        Assert.Equal([isModified ? IncrementalStepRunReason.Modified : IncrementalStepRunReason.Unchanged], Reasons(run, NetworkGenerator.NetworksStep));
        Assert.Equal([IncrementalStepRunReason.Cached], Reasons(run, NetworkGenerator.SettingsStep));
    }

    [Fact]
    public void An_edit_of_an_included_file_gives_other_code()
    {
        const string including = """
            radiolint: 1
            network: cellar
            include: [ shared.yaml ]
            nodes: { hall: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }, cellar: { board: atmega328p, pins: { ce: D9, csn: D10 } } }
            links: [ { from: cellar, to: hall, payload: reading, every: 1 min } ]
            """;
        const string shared = "payloads: { reading: { level: uint8 } }\n";
        string Reading(string text) => (new HostProgram { Files = [("/host/cellar.radio.yaml", including), ("/host/shared.yaml", text)] })
            .Run().Result.GeneratedSources.Single(file => file.HintName == "Cellar.Reading.g.cs").SourceText.ToString();

        Assert.Contains("public byte Level { get; }", Reading(shared), StringComparison.Ordinal);
        Assert.Contains("public ushort Level { get; }", Reading(shared.Replace("uint8", "uint16", StringComparison.Ordinal)), StringComparison.Ordinal);
    }

    [Fact]
    public void No_step_holds_an_object_of_the_compiler()
    {
        var run = HostProgram.OfApiary().Run().Result;
        var seen = new HashSet<object>(ReferenceEqualityComparer.Instance);
        foreach (var output in OurSteps(run).SelectMany(step => step.Outputs))
            Walk(output.Value, seen);
        // The walk reached the leaves: each file's text, the settings' words.
        Assert.True(seen.OfType<string>().Count() > 20, string.Create(CultureInfo.InvariantCulture, $"{seen.Count} objects"));
    }

    [Fact]
    public void An_edit_of_a_manifest_of_100_nodes_regenerates()
    {
        var text = Hundred();
        var program = HostProgram.Of(text) with { Target = Target.Net100 };
        var file = new MemoryFile(program.Files[0].Path, text);
        GeneratorDriver driver = CSharpGeneratorDriver.Create([new NetworkGenerator().AsSourceGenerator()], [file], program.Parsing, new Properties([.. program.Properties]));
        var compilation = program.Before;
        driver = driver.RunGenerators(compilation, TestContext.Current.CancellationToken);
        var first = Nodes(driver);
        Assert.Equal(101, first.Split("public const uint Digest").Length - 1);

        var times = new List<double>();
        for (var round = 0; round < 30; round++)
        {
            var edited = new MemoryFile(file.Path, text.Replace("channel: 74", $"channel: {40 + (round % 2)}", StringComparison.Ordinal));
            driver = driver.ReplaceAdditionalText(file, edited);
            file = edited;
            var watch = Stopwatch.StartNew();
            driver = driver.RunGenerators(compilation, TestContext.Current.CancellationToken);
            times.Add(watch.Elapsed.TotalMilliseconds);
            Assert.NotEqual(first, Nodes(driver));
        }
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"median {times.Order().ElementAt(times.Count / 2):F1} ms, best {times.Min():F1} ms, {text.Length} characters"));
    }

    private static string Nodes(GeneratorDriver driver) =>
        driver.GetRunResult().Results.Single().GeneratedSources.Single(file => file.HintName == "Hundred.Nodes.g.cs").SourceText.ToString();

    // A hundred senders written out on a chain of receivers, six to each.
    private static string Hundred()
    {
        var (nodes, links) = (new StringBuilder(), new StringBuilder());
        for (var i = 1; i <= 100; i++)
        {
            nodes.Append(CultureInfo.InvariantCulture, $"  post-{i}: {{ board: atmega328p, pins: {{ ce: D9, csn: D10 }}, wires: 5 cm }}\n");
            links.Append(CultureInfo.InvariantCulture, $"  - {{ from: post-{i}, to: {(i <= 5 ? "hall" : $"post-{i / 5}")}, payload: reading, every: {i + 10} s }}\n");
        }
        return "radiolint: 1\nnetwork: hundred\nregion: GB\nair: { channel: 74, rate: 1 Mbps }\nnodes:\n  hall: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }\n"
            + nodes + "links:\n" + links + "payloads: { reading: { weight: int32 g in -500..120000, temperature: int16 0.01 degC, sequence: uint8 } }\n";
    }

    private static IEnumerable<IncrementalGeneratorRunStep> OurSteps(GeneratorRunResult run) =>
        run.TrackedSteps.Where(step => NetworkGenerator.Steps.Contains(step.Key)).SelectMany(step => step.Value);

    private static IEnumerable<IncrementalStepRunReason> Reasons(GeneratorRunResult run, string step) =>
        run.TrackedSteps[step].SelectMany(one => one.Outputs).Select(output => output.Reason);

    private static void Walk(object? item, HashSet<object> seen)
    {
        if (item is null || !seen.Add(item))
            return;
        Assert.False(
            item is ISymbol or SyntaxNode or SyntaxTree or Compilation or SemanticModel or Location or AdditionalText or ParseOptions
                or Microsoft.CodeAnalysis.Text.SourceText or Microsoft.CodeAnalysis.Diagnostics.AnalyzerConfigOptions or MetadataReference,
            $"{item.GetType().Name} in the pipeline");
        if (item is string || item.GetType().IsPrimitive || item.GetType().IsEnum)
            return;
        if (item is IEnumerable items)
        {
            foreach (var one in items)
                Walk(one, seen);
        }
        for (var type = item.GetType(); type is not null; type = type.BaseType)
        {
            foreach (var held in type.GetFields(BindingFlags.Instance | BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.DeclaredOnly))
                Walk(held.GetValue(item), seen);
        }
    }
}
