using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeFixes;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Testing;
using Microsoft.CodeAnalysis.Testing;
using Microsoft.CodeAnalysis.Text;
using RadioLint.Analyzers.HostCode;
using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.Fixes;

/// <summary>Code beside the apiary's manifest before and after a fix; one by one, and all at once in file, project and solution.</summary>
internal sealed class FixTest<TFix> : CSharpCodeFixTest<HostCodeAnalyzer, TFix, DefaultVerifier>
    where TFix : CodeFixProvider, new()
{
    private const string Head = """
        using System;
        using System.Buffers.Binary;
        using System.Device.Gpio;
        using System.Device.Spi;
        using System.IO.Ports;
        using System.Runtime.InteropServices;
        using System.Threading;
        using System.Threading.Tasks;
        using RadioLint;

        """;

    /// <param name="rules">How many rules speak: all of one rule are mended at once.</param>
    /// <param name="inDocuments">How many rounds more it takes file by file.</param>
    public FixTest(string before, string after, int rules = 1, int inDocuments = 0)
    {
        NumberOfFixAllIterations = before == after ? 0 : rules;
        NumberOfFixAllInDocumentIterations = NumberOfFixAllIterations + inDocuments;
        ReferenceAssemblies = new("net10.0");
        SolutionTransforms.Add((solution, project) => solution.WithProjectMetadataReferences(project, Target.Net100.WithSpi.WithPorts.References));
        TestCode = Head + before;
        FixedCode = Head + after;
        // What is still wrong afterwards is marked there.
        if (after.Contains("{|", StringComparison.Ordinal))
            FixedState.MarkupHandling = MarkupMode.Allow;
        // What a generator writes is not there while this package changes code; so it stands beside it as files that call themselves generated.
        foreach (var source in Generated.Value)
        {
            TestState.Sources.Add(source);
            FixedState.Sources.Add(source);
        }
        TestState.AdditionalFiles.Add(("/host/larkfield-apiary.radio.yaml", File.ReadAllText(Repository.ApiaryPath)));
        TestState.AnalyzerConfigFiles.Add(("/.globalconfig", "is_global = true\nbuild_property.RootNamespace = Larkfield.Host\n"));
    }

    /// <summary>What the apiary's own generated code and the support are, made once.</summary>
    private static readonly Lazy<ImmutableArray<(string, SourceText)>> Generated = new(() =>
        [.. (HostProgram.OfApiary() with { Target = Target.Net100.WithSpi }).Run().Result.GeneratedSources.Select(source => (source.HintName, source.SourceText))]);

    /// <summary>Code that is found fault with, and nothing is offered.</summary>
    public static Task Leaves(string code) => new FixTest<TFix>(code, code).Run();

    /// <summary>All at once something else comes out than one by one; null where that is tried elsewhere.</summary>
    public FixTest<TFix> AllAtOnce(string? after)
    {
        if (after is null)
        {
            CodeFixTestBehaviors |= CodeFixTestBehaviors.SkipFixAllCheck;
            return this;
        }
        BatchFixedCode = Head + after;
        BatchFixedState.Sources.AddRange(FixedState.Sources.Skip(1));
        BatchFixedState.MarkupHandling = MarkupMode.Allow;
        // Once more for what is left, which changes nothing.
        NumberOfFixAllIterations = NumberOfFixAllInDocumentIterations = 2;
        return this;
    }

    /// <summary>How the offer is called, and what is made together with it.</summary>
    public FixTest<TFix> Titled(string title, string key)
    {
        CodeActionVerifier = (action, verifier) =>
        {
            verifier.Equal(title, action.Title);
            verifier.Equal(key, action.EquivalenceKey!);
        };
        return this;
    }

    /// <summary>One more file, in another namespace than the generated code.</summary>
    public FixTest<TFix> With(string before, string after)
    {
        TestState.Sources.Add(Head + before);
        FixedState.Sources.Add(Head + after);
        return this;
    }

    /// <summary>A file that says of itself that a tool wrote it.</summary>
    public FixTest<TFix> WithGenerated(string code)
    {
        TestState.Sources.Add(("Log.g.cs", code));
        FixedState.Sources.Add(("Log.g.cs", code));
        return this;
    }

    public Task Run() => RunAsync(TestContext.Current.CancellationToken);

    protected override ParseOptions CreateParseOptions() => new CSharpParseOptions(LanguageVersion.CSharp13);
}
