using System.Text.RegularExpressions;
using RadioLint.Emit;
using RadioLint.Tests.Firmware.Support;
using Scriban.Runtime;
using Xunit;

namespace RadioLint.Tests.Firmware;

/// <summary>docs/templates.md lists exactly what templates can use, and its example works.</summary>
public sealed partial class TemplatePage
{
    private static readonly string Page = File.ReadAllText(Path.Combine(Emitted.Root, "docs", "templates.md"));

    [Fact]
    public void Lists_exactly_the_names_of_the_model()
    {
        var headers = new[] { Emitted.Apiary, Emitted.Bench, Emitted.Store }.SelectMany(path => EmitSet.Headers(Emitted.Network(path)).Headers).Select(one => one.Header).ToList();
        var bench = headers.Single(header => header.Node == "bench");
        var programs = EmitSet.Headers(Emitted.Network(Emitted.Bench)).Headers.Where(one => one.Header.Node == "bench").Select(one => NodePrograms.Of(one.Facts, one.Header)).Single();
        foreach (var (title, script) in new (string, ScriptObject)[]
        {
            ("node", bench.ToScript()),
            ("constant", bench.Identity[0].ToScript()),
            ("group", bench.Pins.ToScript()),
            ("table", bench.Table.ToScript()),
            ("frame", bench.Table.Frames[0].ToScript()),
            ("aim", bench.Aims[0].ToScript()),
            ("send", bench.Sends[0].ToScript()),
            ("answer", headers.Single(header => header.Node == "shed").Answers[0].ToScript()),
            ("payload", bench.Payloads[0].ToScript()),
            ("program", programs.OwnScript()),
            ("avr", programs.Avr!.ToScript()),
            ("destination", programs.Destinations[0].ToScript()),
            ("make", EmitSet.MakeModel(Emitted.Network(Emitted.Bench), [programs])),
            ("make node", programs.ToMakeScript()),
        })
        {
            Assert.Equal(script.Keys.Order(StringComparer.Ordinal), NamesUnder(title).Order(StringComparer.Ordinal));
        }
    }

    [Fact]
    public void Lists_exactly_the_functions_and_files()
    {
        Assert.Equal(Renderer.Functions, NamesUnder("Functions"));
        var files = FirstColumn().Matches(Page[..Page.IndexOf("## What a template can use", StringComparison.Ordinal)]).Select(match => match.Groups[1].Value);
        Assert.Equal(Templates.Names, files.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void The_types_are_those_of_the_model()
    {
        var model = EmitSet.Headers(Emitted.Network(Emitted.Bench)).Headers.Single(one => one.Header.Node == "bench").Header.ToScript();
        foreach (Match row in Row().Matches(Section("node")))
        {
            var value = model[row.Groups[1].Value];
            var fits = row.Groups[2].Value switch
            {
                "text" or "C" or "identifier" => value is string,
                "number" => value is int,
                "true or false" => value is bool,
                "C or null" => value is null or string,
                "table or null" => value is null or ScriptObject,
                "group" or "table" => value is ScriptObject,
                var type => type.StartsWith("list of ", StringComparison.Ordinal) && value is ScriptArray,
            };
            Assert.True(fits, row.Value);
        }
    }

    [Fact]
    public void Its_example_gives_headers()
    {
        var example = Regex.Match(Page, "## Example.*?```\n(.*?)```", RegexOptions.Singleline).Groups[1].Value;
        var files = Emitted.Files(Emitted.Network(Emitted.Apiary), new() { Template = name => name == "constants.sbn" ? example : null });
        var hive = files.Single(file => file.Name == "hive_1_radio.h").Text;
        Assert.Contains("\n\n/* 2474 MHz */\n#define HIVE_1_CHANNEL 74u\n", hive, StringComparison.Ordinal);
        Assert.Equal(Emitted.Everything["hive_1_radio.h"].Split("#define").Length, hive.Split("#define").Length);
    }

    private static string Section(string title) => Regex.Match(Page, $"### {title}\n(.*?)(?=\n#|$)", RegexOptions.Singleline).Groups[1].Value;

    private static IEnumerable<string> NamesUnder(string title) => FirstColumn().Matches(Section(title)).Select(match => match.Groups[1].Value);

    [GeneratedRegex(@"^\| `([^`]+)` \|", RegexOptions.Multiline)]
    private static partial Regex FirstColumn();

    [GeneratedRegex(@"^\| `([^`]+)` \| ([^|]+) \|", RegexOptions.Multiline)]
    private static partial Regex Row();
}
