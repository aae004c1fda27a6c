using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using RadioLint.Rules.HostCode;
using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.HostCode;

/// <summary>The examples on the pages of the rules on C# code: exactly what the marks say, and nothing else.</summary>
public sealed class PageTests
{
    // No line of C# and no manifest shows these; the tests below do, and the pages quote what is said.
    private static readonly string[] OfTheProject = ["RL9001", "RL9023", "RL9025", "RL9026"];

    // What every C# block stands in.
    private const string Prologue = """
        using System;
        using System.Buffers.Binary;
        using System.Collections.Generic;
        using System.Device.Gpio;
        using System.Device.Spi;
        using System.IO;
        using System.IO.Ports;
        using System.Runtime.InteropServices;
        using System.Threading;
        using System.Threading.Channels;
        using System.Threading.Tasks;
        using RadioLint;
        namespace Larkfield.Host;

        """;

    private static readonly HostProgram Apiary = HostProgram.OfApiary() with { Target = Target.Net100.WithSpi.WithPorts };

    private static readonly Lazy<Compilation> Generated = new(() => Apiary.Run().Compilation);

    public static TheoryData<string> CodeBlocks() => [.. Of("csharp").Select(block => block.Name)];

    public static TheoryData<string> ManifestBlocks() => [.. Of("yaml").Select(block => block.Name)];

    [Theory, MemberData(nameof(CodeBlocks))]
    public async Task Code_is_told_what_the_marks_say(string name)
    {
        var block = Of("csharp").First(one => one.Name == name);
        var tree = CSharpSyntaxTree.ParseText(Prologue + block.Text, Apiary.Parsing, "Page.cs", cancellationToken: TestContext.Current.CancellationToken);
        var compilation = Generated.Value.AddSyntaxTrees(tree);
        // What a reader would have to know to compile it: warnings, of unused members for one, are no matter here.
        Quiet.Compiles(string.Join('\n', compilation.GetDiagnostics(TestContext.Current.CancellationToken).Where(one => one.Severity is DiagnosticSeverity.Error)));
        Judge(block, (await Diagnosed.Of(compilation, Apiary)).Where(IsHostRule), Prologue.Count(one => one == '\n'));
    }

    [Theory, MemberData(nameof(ManifestBlocks))]
    public async Task A_manifest_is_told_what_the_marks_say(string name)
    {
        var block = Of("yaml").First(one => one.Name == name);
        var program = HostProgram.Of(block.Text) with { Target = Target.Net100.WithSpi };
        var (compilation, result) = program.Run();
        Judge(block, [.. result.Diagnostics, .. (await Diagnosed.Of(compilation, program)).Where(IsHostRule)], 0);
    }

    // No text beside the project says these: the block without a language is what the compiler prints.
    [Fact]
    public async Task A_page_quotes_what_is_said_of_a_project()
    {
        var bare = HostProgram.OfApiary() with { Files = [] };
        Assert.Equal(Quote("RL9001", PageBlock.Fails), await Printed(bare));
        var old = HostProgram.OfApiary() with { Target = Target.Standard with { Language = LanguageVersion.CSharp7_3 } };
        Assert.Equal(Quote("RL9025", PageBlock.Fails), await Printed(old));
        Assert.Equal("", await Printed(HostProgram.OfApiary() with { Target = Target.Standard }));
    }

    [Fact]
    public async Task A_page_quotes_what_is_said_of_a_record()
    {
        var (fails, passes) = (Record(PageBlock.Fails), Record(PageBlock.Passes));
        Assert.Equal(Quote("RL9023", PageBlock.Fails), await Printed(fails));
        Assert.Equal("", await Printed(passes));

        static HostProgram Record(string heading) => HostProgram.OfApiary() with
        {
            Files = HostProgram.OfApiary().Files.Add(("/host/larkfield-apiary.radio.issued.json", Of("json").Single(block => block.Id == "RL9023" && block.Heading == heading).Text)),
        };
    }

    [Fact]
    public void Every_page_shows_its_rule_failing_and_passing()
    {
        foreach (var id in HostRules.All.Select(rule => rule.Id).Where(id => !OfTheProject.Contains(id, StringComparer.Ordinal)))
        {
            var blocks = Of("csharp").Concat(Of("yaml")).Where(block => block.Id == id).ToList();
            Assert.True(blocks.Exists(block => block.Heading == PageBlock.Fails && CodeMark.ReadAll(block.Text).Any(mark => mark.Id == id)), $"{id} has no example that fails");
            Assert.True(blocks.Exists(block => block.Heading == PageBlock.Passes), $"{id} has no example that passes");
        }
    }

    private static IEnumerable<PageBlock> Of(string language) => RulePages.Blocks.Where(block => block.Language == language);

    private static string Quote(string id, string heading) => Of("").Single(block => block.Id == id && block.Heading == heading).Text;

    // As the compiler prints it, without folders.
    private static async Task<string> Printed(HostProgram program)
    {
        var (compilation, result) = program.Run();
        var said = result.Diagnostics.Concat(await Diagnosed.Of(compilation, program)).Where(IsHostRule);
        return string.Concat(said.Select(one => one.ToString().Replace("/host/", "", StringComparison.Ordinal) + "\n"));
    }

    private static bool IsHostRule(Diagnostic one) => one.Id.StartsWith("RL9", StringComparison.Ordinal);

    private static void Judge(PageBlock block, IEnumerable<Diagnostic> diagnostics, int before)
    {
        var lines = block.Text.Split('\n');
        // By place, as marks are; the generator's come first.
        var found = diagnostics.Select(one => CodeMark.Of(one, lines, before)).OrderBy(mark => mark.Line).ThenBy(mark => mark.Column).ThenBy(mark => mark.Id, StringComparer.Ordinal).ToList();
        var expected = CodeMark.ReadAll(block.Text);
        Assert.True(
            found.Count == expected.Count && found.Zip(expected).All(pair => pair.Second.Says(pair.First)),
            $"{block}\nmarked:\n{string.Join('\n', expected)}\nfound:\n{string.Join('\n', found)}");
        if (block.Heading == PageBlock.Passes)
            Assert.Empty(expected);
    }
}
