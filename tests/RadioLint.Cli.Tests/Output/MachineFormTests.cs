using System.Text.Json;
using System.Text.Json.Nodes;
using System.Xml.Linq;
using Json.Schema;
using RadioLint.Cli.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Output;

/// <summary>Findings for services: SARIF by its published schema, JUnit by what build servers count.</summary>
public sealed class MachineFormTests
{
    // Static Analysis Results Interchange Format (SARIF) 2.1.0, OASIS Standard, its JSON schema in the edition for draft 2020-12.
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Repository.Root, "tests", "RadioLint.Cli.Tests", "schemas", "sarif-2.1.0.json")));

    [Theory]
    [InlineData("docs/examples/larkfield-mistakes")]
    [InlineData("docs/examples/larkfield-apiary")]
    [InlineData("docs/examples", "no-such-file.radio.yaml")]
    public void Sarif_obeys_its_schema(params string[] places)
    {
        var run = CommandRun.Of(Repository.Root, ["check", .. places, "--format", "sarif"]);
        using var document = JsonDocument.Parse(run.Results);
        var judged = Schema.Evaluate(document.RootElement, new() { OutputFormat = OutputFormat.List, RequireFormatValidation = true });
        Assert.True(judged.IsValid, string.Join('\n', (judged.Details ?? []).Where(one => one.Errors is not null).SelectMany(one => one.Errors!.Select(error => $"{one.InstanceLocation}: {error.Value}")).Take(5)));
    }

    // Or a test that cannot fail.
    [Fact]
    public void The_schema_refuses_what_is_wrong()
    {
        var sarif = JsonNode.Parse(CommandRun.Of(Repository.Root, "check", "docs/examples/larkfield-mistakes", "--format", "sarif").Results)!;
        sarif["runs"]![0]!["results"]![0]!["level"] = "fatal";
        using var document = JsonDocument.Parse(sarif.ToJsonString());
        Assert.False(Schema.Evaluate(document.RootElement).IsValid);
    }

    [Fact]
    public void Sarif_says_what_json_says()
    {
        var sarif = JsonNode.Parse(CommandRun.Of(Repository.Root, "check", "docs/examples/larkfield-mistakes", "--format", "sarif").Results)!["runs"]![0]!;
        var json = JsonNode.Parse(CommandRun.Of(Repository.Root, "check", "docs/examples/larkfield-mistakes", "--format", "json").Results)!;
        var results = sarif["results"]!.AsArray();
        var findings = json["findings"]!.AsArray();
        Assert.Equal(findings.Count, results.Count);
        foreach (var (result, finding) in results.Zip(findings))
        {
            var region = result!["locations"]![0]!["physicalLocation"]!["region"]!;
            Assert.Equal(
                (finding!["rule"]!.ToString(), finding["line"]!.ToString(), finding["endColumn"]!.ToString(), finding["name"]!.ToString(), finding["related"]!.AsArray().Count, finding["fixes"]!.AsArray().Count),
                (result["ruleId"]!.ToString(), region["startLine"]!.ToString(), region["endColumn"]!.ToString(), result["partialFingerprints"]!["radiolint/v1"]!.ToString(),
                    result["relatedLocations"]?.AsArray().Count ?? 0, result["fixes"]?.AsArray().Count ?? 0));
            Assert.Equal(result["ruleId"]!.ToString(), sarif["tool"]!["driver"]!["rules"]![(int)result["ruleIndex"]!]!["id"]!.ToString());
            Assert.Equal("new", result["baselineState"]!.ToString());
        }
    }

    [Fact]
    public void What_a_baseline_knows_is_unchanged_in_sarif()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a.radio.yaml", File.ReadAllText(Path.Combine(Repository.Root, "docs", "examples", "larkfield-apiary", "larkfield-apiary.radio.yaml")).Replace("channel: 74", "channel: 90", StringComparison.Ordinal));
        CommandRun.Of(folder.Path, "check", "--baseline", "known.json", "--adopt");
        var results = JsonNode.Parse(CommandRun.Of(folder.Path, "check", "--baseline", "known.json", "--format", "sarif").Results)!["runs"]![0]!["results"]!.AsArray();
        Assert.NotEmpty(results);
        Assert.All(results, one => Assert.Equal("unchanged", one!["baselineState"]!.ToString()));
    }

    [Fact]
    public void Junit_counts_what_failed()
    {
        var xml = XDocument.Parse(CommandRun.Of(Repository.Root, "check", "docs/examples/larkfield-mistakes", "no-such-file.radio.yaml", "--format", "junit").Results).Root!;
        var json = JsonNode.Parse(CommandRun.Of(Repository.Root, "check", "docs/examples/larkfield-mistakes", "--format", "json").Results)!["findings"]!.AsArray();
        var failing = json.Count(one => one!["severity"]!.ToString() != "info");
        Assert.Equal((failing, json.Count - failing, 1), (xml.Descendants("failure").Count(), xml.Descendants("system-out").Count(), xml.Descendants("error").Count()));
        foreach (var suite in xml.DescendantsAndSelf().Where(one => one.Attribute("tests") is not null))
        {
            Assert.Equal(suite.Descendants("testcase").Count(), (int)suite.Attribute("tests")!);
            Assert.Equal(suite.Descendants("failure").Count(), (int)suite.Attribute("failures")!);
            Assert.Equal(suite.Descendants("error").Count(), (int)suite.Attribute("errors")!);
        }
    }

    [Fact]
    public void Hostile_names_are_escaped()
    {
        using var folder = new TemporaryFolder();
        folder.Write("a b&<\"é.radio.yaml", "radiolint: 1\nnetwork: x\nnodes:\n  \"</failure>\\u0001\": {}\n");
        Assert.NotNull(XDocument.Parse(CommandRun.Of(folder.Path, "check", "--format", "junit").Results).Root);
        var sarif = JsonNode.Parse(CommandRun.Of(folder.Path, "check", "--format", "sarif").Results)!;
        Assert.Equal("a%20b%26%3C%22%C3%A9.radio.yaml", sarif["runs"]![0]!["results"]![0]!["locations"]![0]!["physicalLocation"]!["artifactLocation"]!["uri"]!.ToString());
    }
}
