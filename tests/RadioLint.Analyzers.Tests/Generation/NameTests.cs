using System.Text;
using CsCheck;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using RadioLint.Analyzers.Generation;
using RadioLint.Tests.Analyzers.Support;
using Xunit;

namespace RadioLint.Tests.Analyzers.Generation;

/// <summary>Whatever a manifest calls its things: the code compiles, and nothing of a name becomes code.</summary>
public sealed class NameTests
{
    private static readonly string[] Pieces =
    [
        "*/", "/*", "//", "\n", "\r\n", "\u2028", "\u0085", "</summary>", "<see cref=\"evil\"/>", "&", "]]>", "\"; int evil; \"", "\\", "\\u000A", "{0}", "{", "}", "$", "@", "'", "\t", "\0", "é",
        "ß", "İ", "漢", "\U0001F41D", "\u202E", "int", "class", "event", "record", "value", "size", "air", "nodes", "reading", "a", "A", "a-1", "-", "_", "9", " ", ".", "weight-raw", "weight", "Raw",
    ];

    private static readonly Gen<string> Hostile = Gen.OneOf(
        Gen.Int[0, Pieces.Length - 1].Select(i => Pieces[i]).Array[1, 3].Select(string.Concat), Gen.Char.Array[0, 8].Select(letters => new string(letters)));

    [Theory]
    [InlineData("hive-1", "Hive1")]
    [InlineData("larkfield-apiary", "LarkfieldApiary")]
    [InlineData("n9z", "N9z")]
    [InlineData("9z", "N9z")]
    [InlineData("", "Unnamed")]
    [InlineData("\u202E", "Unnamed")]
    public void Names_become_pascal_case(string written, string name) => Assert.Equal(name, CSharp.Pascal(written));

    [Theory]
    [InlineData("Larkfield.Host", "Larkfield.Host")]
    [InlineData("my-app.2nd.class", "my_app._2nd.@class")]
    [InlineData("..", "Unnamed")]
    public void Any_project_name_gives_a_namespace(string project, string name) => Assert.Equal(name, CSharp.Namespace(project));

    [Fact]
    public void Names_that_become_equal_are_told_apart_and_said()
    {
        var program = HostProgram.Of("""
            radiolint: 1
            network: air
            region: GB
            air: { channel: 74, rate: 1 Mbps }
            nodes:
              hive-1: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }
              hive1: { board: atmega328p, pins: { ce: D9, csn: D10 } }
              nodes: { board: atmega328p, pins: { ce: D9, csn: D10 } }
            links:
              - { from: hive1, to: hive-1, payload: reading, every: 1 min }
              - { from: nodes, to: hive-1, payload: size, every: 1 min }
            payloads:
              reading: { weight-raw: uint8, weight: int16 g, reading: uint8, size: uint8, items: 2 x uint8, fault: { uint8: [none, some] } }
              size: { a: uint8 }
            """);
        Quiet.Compiles(program.Complaints());
        var (compilation, result) = program.Run();
        Assert.NotNull(compilation.GetTypeByMetadataName("Larkfield.Host.AirNetwork+Nodes+Hive12"));
        Assert.NotNull(compilation.GetTypeByMetadataName("Larkfield.Host.AirNetwork+Nodes+NodesNode"));
        Assert.NotNull(compilation.GetTypeByMetadataName("Larkfield.Host.AirNetwork+Payloads+SizePayload"));
        var reading = compilation.GetTypeByMetadataName("Larkfield.Host.AirNetwork+Payloads+Reading")!;
        foreach (var member in new[] { "WeightRaw", "Weight2", "Weight2Raw", "ReadingField", "SizeField", "Items", "FaultField", "Size" })
            Assert.Contains(member, reading.MemberNames);
        Assert.Equal(
            [
                "RL9022: `hive1` and `hive-1` both become `Hive1` in C#, and the later one is called `Hive12`; rename one of the two",
                "RL9022: `weight` and `weight-raw` both become `WeightRaw` in C#, and the later one is called `Weight2`; rename one of the two",
            ],
            result.Diagnostics.Select(one => $"{one.Id}: {one.GetMessage(System.Globalization.CultureInfo.InvariantCulture)}"));
    }

    [Fact]
    public void Two_networks_of_one_name_give_one_class_and_a_remark()
    {
        var manifest = File.ReadAllText(Repository.ApiaryPath);
        var program = new HostProgram { Files = [("/host/b/x.radio.yaml", manifest), ("/host/a/x.radio.yaml", manifest)] };
        Quiet.Compiles(program.Complaints());
        var said = Assert.Single(program.Run().Result.Diagnostics);
        Assert.Equal("RL9022", said.Id);
        Assert.Equal("/host/b/x.radio.yaml", said.Location.GetLineSpan().Path);
    }

    [Fact]
    public void Hostile_names_stay_names()
    {
        var random = PCG.Parse("0000KOXvPPr1");
        var programs = 0;
        for (var round = 0; round < 150; round++)
        {
            var words = Hostile.Array[12].Generate(random, null, out _);
            var program = HostProgram.Of(Hostilely(words), "x.radio.yaml") with { Properties = [("RootNamespace", words[0]), ("RadioLintAccess", "public")] };
            var (compilation, result) = program.Run();
            Assert.DoesNotContain(result.Diagnostics, one => one.Id == "RL9026");
            Quiet.Compiles(HostProgram.Complaints(compilation));
            foreach (var tree in compilation.SyntaxTrees)
            {
                var code = tree.GetRoot(TestContext.Current.CancellationToken).DescendantTokens().Where(token => !token.IsKind(SyntaxKind.StringLiteralToken)).Select(token => token.ValueText);
                Assert.DoesNotContain("evil", code);
            }
            programs += result.GeneratedSources.Length > 8 ? 1 : 0;
        }
        Assert.True(programs > 100, $"{programs} programs held anything");
    }

    [Fact]
    public void A_manifest_cut_off_anywhere_never_fails()
    {
        var manifest = File.ReadAllText(Repository.ApiaryPath);
        for (var length = 0; length < manifest.Length; length += 61)
        {
            var (compilation, result) = HostProgram.Of(manifest[..length]).Run();
            Assert.Empty(result.Diagnostics);
            Quiet.Compiles(HostProgram.Complaints(compilation));
        }
    }

    [Fact]
    public void What_is_open_is_left_out_and_the_rest_is_there()
    {
        var (compilation, _) = HostProgram.Of(File.ReadAllText(Repository.ApiaryPath).Replace("channel: 74 ", "channel: open ", StringComparison.Ordinal)).Run();
        var air = compilation.GetTypeByMetadataName("Larkfield.Host.LarkfieldApiary+Air")!;
        Assert.DoesNotContain("Channel", air.MemberNames);
        Assert.Contains("RateKbps", air.MemberNames);
        Assert.DoesNotContain("Frames", compilation.GetTypeByMetadataName("Larkfield.Host.LarkfieldApiary+Nodes+Hive1")!.MemberNames);
        Assert.NotNull(compilation.GetTypeByMetadataName("Larkfield.Host.LarkfieldApiary+Payloads+Reading"));
    }

    [Fact]
    public void An_older_language_or_no_spans_is_said_once_and_nothing_is_generated()
    {
        var old = (HostProgram.OfApiary() with { Target = Target.Net80 with { Language = LanguageVersion.CSharp9 } }).Run().Result;
        Assert.Empty(old.GeneratedSources);
        Assert.Equal(
            "RL9025 this project has C# 9.0, and the generated code needs C# 10 or later; set LangVersion",
            Assert.Single(old.Diagnostics.Select(one => $"{one.Id} {one.GetMessage(System.Globalization.CultureInfo.InvariantCulture)}")));

        var bare = Target.Standard with { References = [.. Target.Standard.References.Where(one => one.Display?.EndsWith("System.Memory.dll", StringComparison.Ordinal) != true)] };
        var poor = (HostProgram.OfApiary() with { Target = bare }).Run().Result;
        Assert.Empty(poor.GeneratedSources);
        Assert.Contains("System.Memory", Assert.Single(poor.Diagnostics).GetMessage(System.Globalization.CultureInfo.InvariantCulture), StringComparison.Ordinal);
    }

    [Fact]
    public void A_project_without_manifests_gets_nothing() => Assert.Empty(new HostProgram().Run().Result.GeneratedSources);

    private static string Hostilely(string[] words)
    {
        string Quoted(int index)
        {
            var text = new StringBuilder("\"");
            foreach (var c in words[index])
                text.Append(System.Globalization.CultureInfo.InvariantCulture, $"\\u{(int)c:X4}");
            return text.Append('"').ToString();
        }
        return $$"""
            radiolint: 1
            network: {{Quoted(1)}}
            region: GB
            air: { channel: 74, rate: 1 Mbps }
            nodes:
              {{Quoted(2)}}: { board: esp32, pins: { ce: GPIO27, csn: GPIO5 } }
              {{Quoted(3)}}: { board: atmega328p, pins: { ce: D9, csn: D10 } }
            links: [ { from: {{Quoted(3)}}, to: {{Quoted(2)}}, payload: {{Quoted(4)}}, every: 1 min } ]
            payloads:
              {{Quoted(4)}}:
                {{Quoted(5)}}: "int16 0.1 {{Unit(words[6])}} in -1..1"
                {{Quoted(7)}}: { bits: { {{Quoted(8)}}: 3, {{Quoted(9)}}: 2 } }
                {{Quoted(10)}}: { uint8: [ {{Quoted(11)}}, {{Quoted(5)}} ] }
            """;
    }

    private static string Unit(string word)
    {
        var unit = string.Concat(word.Where(c => c is not (' ' or '"' or '\\') && !char.IsControl(c) && !char.IsSurrogate(c) && c is not ('\u2028' or '\u2029' or '\uFEFF')));
        return unit.Length == 0 ? "x" : unit;
    }
}
