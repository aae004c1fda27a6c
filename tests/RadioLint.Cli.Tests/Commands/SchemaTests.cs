using System.Text.Json;
using RadioLint.Cli.Tests.Support;
using Xunit;

namespace RadioLint.Cli.Tests.Commands;

/// <summary>The two commands that print what the key tables know.</summary>
public sealed class SchemaTests
{
    [Fact]
    public void Schema_is_one_JSON_text_and_says_which_dialect()
    {
        var run = CommandRun.Of(Repository.Root, "schema");
        Assert.Equal((ExitStatus.Passed, ""), (run.Status, run.Notes));
        using var schema = JsonDocument.Parse(run.Results);
        Assert.Equal("https://json-schema.org/draft/2020-12/schema", schema.RootElement.GetProperty("$schema").GetString());
    }

    [Fact]
    public void The_effective_manifest_has_the_same_findings_and_they_go_to_the_notes()
    {
        using var folder = new TemporaryFolder();
        folder.Write("x.radio.yaml", File.ReadAllText(Repository.Apiary).Replace("channel: 74", "channel: 126", StringComparison.Ordinal));
        var shown = CommandRun.Of(folder.Path, "check", "x.radio.yaml", "--show-effective");
        Assert.Equal(ExitStatus.Failed, shown.Status);
        folder.Write("x.radio.yaml", shown.Results);
        var again = CommandRun.Of(folder.Path, "check", "x.radio.yaml");
        Assert.Equal(Messages(shown.Notes), Messages(again.Results));
        Assert.NotEmpty(Messages(again.Results));
        Assert.Equal(shown.Results, CommandRun.Of(folder.Path, "check", "x.radio.yaml", "--show-effective").Results);

        static IEnumerable<string> Messages(string text) =>
            text.Split('\n').Where(line => line.StartsWith("x.radio.yaml:", StringComparison.Ordinal)).Select(line => line[line.IndexOf(' ', StringComparison.Ordinal)..]).Order(StringComparer.Ordinal);
    }

    [Fact]
    public void Without_a_network_there_is_nothing_to_show_but_findings()
    {
        using var folder = new TemporaryFolder();
        folder.Write("x.radio.yaml", "radiolint: 1\nnetwork: x\n");
        var run = CommandRun.Of(folder.Path, "check", "--show-effective");
        Assert.Equal((ExitStatus.Failed, ""), (run.Status, run.Results));
        Assert.Contains("error RL8014", run.Notes, StringComparison.Ordinal);
    }

    [Fact]
    public void It_shows_one_manifest_and_as_text()
    {
        using var folder = new TemporaryFolder();
        folder.Write("x.radio.yaml", "radiolint: 1\nnetwork: x\n");
        Assert.Equal("radiolint: `--show-effective` prints a manifest, so it goes with `--format text` only\n", CommandRun.Of(folder.Path, "check", "--show-effective", "--format", "json").Notes);
        folder.Write("y.radio.yaml", "radiolint: 1\nnetwork: x\n");
        Assert.Equal("radiolint: `--show-effective` takes one manifest, and 2 are meant; name one of them\n", CommandRun.Of(folder.Path, "check", "--show-effective").Notes);
    }
}
