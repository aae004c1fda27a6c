using System.Text.Json;
using Json.Schema;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Rules;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;
using Judge = Json.Schema.JsonSchema;
using Ours = RadioLint.Manifest.JsonSchema;

namespace RadioLint.Tests.Manifest;

/// <summary>The schema, judged by a validator that knows nothing of the reader, against what the reader itself takes and refuses.</summary>
public sealed class JsonSchemaTests
{
    private const string Head = "\"radiolint\": 1, \"network\": \"cellar\", \"region\": \"GB\"";
    private const string Node = "\"board\": \"esp32\"";

    private static readonly Judge Schema = Judge.FromText(Ours.Text());

    public static TheoryData<string> Read() => [.. Fixtures.All().Where(file => !Ids(file).Any(IsOfReading))];

    public static TheoryData<string> Refused() => [.. Fixtures.All().Where(file => Ids(file).Any(id => id is "RL8003" or "RL8013"))];

    public static TheoryData<int> Blocks() => [.. Enumerable.Range(0, Reference.Blocks.Count)];

    public static TheoryData<string> Examples() =>
        [.. Fixtures.Examples().Where(file => !Ids(file, File.ReadAllText(Path.Combine(Fixtures.Root, file)), new()).Any(IsOfReading))];

    [Fact]
    public void It_is_a_schema_itself()
    {
        using var text = JsonDocument.Parse(Ours.Text());
        Assert.True(MetaSchemas.Draft202012.Evaluate(text.RootElement).IsValid);
        Assert.Equal("https://json-schema.org/draft/2020-12/schema", text.RootElement.GetProperty("$schema").GetString());
        Assert.DoesNotContain("\r", Ours.Text(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_validator_can_refuse()
    {
        using var broken = JsonDocument.Parse("""{ "type": 5 }""");
        Assert.False(MetaSchemas.Draft202012.Evaluate(broken.RootElement).IsValid);
    }

    [Theory, MemberData(nameof(Read))]
    public void It_takes_what_the_reader_takes(string file) => Assert.True(Takes(file, File.ReadAllText(Path.Combine(Fixtures.Rules, file))), file);

    [Theory, MemberData(nameof(Refused))]
    public void It_refuses_keys_and_units_that_the_reader_refuses(string file) => Assert.False(Takes(file, File.ReadAllText(Path.Combine(Fixtures.Rules, file))), file);

    [Theory, MemberData(nameof(Blocks))]
    public void It_takes_the_examples_of_the_reference(int number) => Assert.True(Takes("a.radio.yaml", Reference.Blocks[number]));

    [Fact]
    public void There_are_files_to_judge()
    {
        Assert.Contains("docs/examples/larkfield-apiary/larkfield-apiary.radio.yaml", Examples().Select(row => row.Data));
        Assert.True(Read().Count > 100 && Refused().Count > 10);
    }

    [Theory, MemberData(nameof(Examples))]
    public void It_takes_the_shipped_examples(string file) => Assert.True(Takes(file, File.ReadAllText(Path.Combine(Fixtures.Root, file))));

    [Theory]
    [InlineData($"{{ {Head} }}")]
    [InlineData($"{{ \"network\": \"a\", \"nodes\": {{}} }}")]
    [InlineData($"{{ {Head}, \"nodes\": {{ \"hall\": {{ {Node}, \"height\": 3 }} }} }}")]
    [InlineData($"{{ {Head}, \"nodes\": {{ \"hall\": {{ {Node}, \"height\": \"3\" }} }} }}")]
    [InlineData($"{{ {Head}, \"nodes\": {{ \"hall\": {{ {Node}, \"height\": \"3m\" }} }} }}")]
    [InlineData($"{{ {Head}, \"nodes\": {{ \"hall\": {{ {Node}, \"power\": \"3.3 V\" }} }} }}")]
    [InlineData($"{{ {Head}, \"nodes\": {{ \"hall\": {{ {Node}, \"bord\": \"esp32\" }} }} }}")]
    [InlineData($"{{ {Head}, \"nodes\": [ {{ {Node} }} ] }}")]
    [InlineData($"{{ {Head}, \"air\": {{ \"rate\": \"1Mbps\" }}, \"nodes\": {{}} }}")]
    [InlineData($"{{ {Head}, \"air\": {{ \"acknowledge\": \"yes\" }}, \"nodes\": {{}} }}")]
    [InlineData($"{{ {Head}, \"air\": {{ \"chanel\": 74 }}, \"nodes\": {{}} }}")]
    [InlineData($"{{ {Head}, \"air\": 74, \"nodes\": {{}} }}")]
    [InlineData($"{{ {Head}, \"setting\": \"garden\", \"nodes\": {{}} }}")]
    [InlineData($"{{ {Head}, \"nodes\": {{ \"hall\": {{ {Node}, \"supply\": {{ \"input\": {{ \"input\": {{ \"form\": \"USB\" }} }} }} }} }} }}")]
    [InlineData($"{{ {Head}, \"nodes\": {{}}, \"links\": [ {{ \"from\": \"a\", \"to\": \"b\" }} ] }}")]
    [InlineData($"{{ {Head}, \"nodes\": {{}}, \"links\": [ {{ \"from\": \"a\", \"to\": \"b\", \"payload\": \"p\", \"address\": \"C2A7D19B33\" }} ] }}")]
    [InlineData($"{{ {Head}, \"nodes\": {{}}, \"payloads\": {{ \"p\": {{ \"t\": \"uint16[3]\" }} }} }}")]
    [InlineData($"{{ {Head}, \"nodes\": {{}}, \"rules\": {{ \"RL3001\": \"off\" }} }}")]
    [InlineData($"{{ {Head}, \"nodes\": {{}}, \"rules\": {{ \"RL300\": \"info\" }} }}")]
    [InlineData($"{{ {Head}, \"nodes\": {{}}, \"rules\": {{ \"allow\": [ {{ \"because\": \"x\" }} ] }} }}")]
    public void It_refuses_what_is_wrong(string json) => Assert.False(Takes(json));

    [Theory]
    [InlineData($"{{ {Head}, \"x-note\": [1, {{}}], \"nodes\": {{ \"x-note\": 5, \"hall\": {{ {Node}, \"x-note\": null }} }} }}")]
    [InlineData($"{{ {Head}, \"nodes\": {{ \"hall\": {{ {Node}, \"supply\": {{ \"input\": {{ \"input\": {{ \"from\": \"USB\" }} }} }} }} }} }}")]
    [InlineData($"{{ {Head}, \"nodes\": {{ \"hall\": {{ {Node}, \"each\": {{ \"a\": null, \"b\": {{ \"wires\": \"8 cm\" }} }} }} }} }}")]
    [InlineData($"{{ {Head}, \"nodes\": {{}}, \"rules\": {{ \"x-note\": 1, \"RL3001\": \"info\", \"locked\": \"RL3101\" }} }}")]
    public void It_takes_what_is_right(string json) => Assert.True(Takes(json));

    [Fact]
    public void Defaults_and_descriptions_are_those_of_the_tables()
    {
        using var text = JsonDocument.Parse(Ours.Text());
        var air = text.RootElement.GetProperty("$defs").GetProperty("air").GetProperty("properties");
        Assert.Equal("1 Mbps", air.GetProperty("rate").GetProperty("default").GetString());
        Assert.Equal(5, air.GetProperty("address-width").GetProperty("default").GetInt32());
        Assert.True(air.GetProperty("acknowledge").GetProperty("default").GetBoolean());
        Assert.Equal("data rate on air", air.GetProperty("rate").GetProperty("description").GetString());
    }

    private static bool Takes(string name, string text) =>
        Takes(Rewriting.ToJson(Rewriting.Tree(name, text) ?? throw new InvalidOperationException(name), Rewriting.AsWritten));

    private static bool Takes(string json)
    {
        using var instance = JsonDocument.Parse(json);
        return Schema.Evaluate(instance.RootElement).IsValid;
    }

    private static IEnumerable<string> Ids(string file) => Ids(file, File.ReadAllText(Path.Combine(Fixtures.Rules, file)), Fixtures.Options(file[..6], file));

    private static IEnumerable<string> Ids(string file, string text, CheckOptions options) =>
        Linter.Check(new SourceText(file, text), options).Findings.Select(finding => finding.Rule.Id);

    // What is wrong with a manifest before it is a network; RL8304 only lists what is not stated.
    private static bool IsOfReading(string id) => id != "RL8304" && Catalogue.OfReading.Any(rule => rule.Id == id);
}
