using RadioLint.Findings;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests;

/// <summary>The shipped examples are what the pages about them say.</summary>
public sealed class ExampleTests
{
    private const string Apiary = "docs/examples/larkfield-apiary/larkfield-apiary.radio.yaml";
    private const string Mistakes = "docs/examples/larkfield-mistakes/larkfield-mistakes.radio.yaml";

    [Theory, InlineData(Apiary), InlineData("docs/examples/first-pair/first-pair.radio.yaml")]
    public void Examples_are_clean_and_each_info_is_explained(string file)
    {
        var result = Check(file);
        Assert.DoesNotContain(result.Findings, finding => finding.Severity > Severity.Info);
        Assert.All(result.Network!.Plan.Nodes, plan => Assert.NotNull(plan.Image));
        var page = File.ReadAllText(Path.Combine(Fixtures.Root, "docs", "examples", "README.md"));
        Assert.All(result.Findings, finding => Assert.Contains($"`{finding.Rule.Id}`", page, StringComparison.Ordinal));
    }

    [Fact]
    public void The_apiary_has_eight_nodes_on_five_kinds_of_controller_and_pipes_to_spare()
    {
        var network = Check(Apiary).Network!;
        Assert.True(network.Nodes.Length >= 8);
        Assert.True(network.Nodes.Select(node => node.Board!.Chip).Distinct().Count() >= 5);
        Assert.All(network.Plan.Nodes, plan => Assert.True(plan.Pipes.Length <= 6));
        Assert.All(network.Hops.Where(hop => !hop.Link.RidesInAcknowledgement), hop => Assert.NotNull(hop.Pipe));
    }

    [Fact]
    public void The_readme_shows_what_the_mistakes_give()
    {
        var lines = Check(Mistakes).Findings.Where(finding => finding.Severity > Severity.Info)
            .Select(finding => $"{finding.Place.ToString()[(Mistakes.LastIndexOf('/') + 1)..]}: {finding.Severity.ToString().ToLowerInvariant()} {finding.Rule.Id}: {finding.Message}");
        var shown = Fixtures.Blocks(File.ReadAllText(Path.Combine(Fixtures.Root, "README.md")), "text").First();
        Assert.Equal(string.Join('\n', lines) + "\n", shown);
    }

    private static CheckResult Check(string file) =>
        Linter.Check(file, File.ReadAllBytes(Path.Combine(Fixtures.Root, file)), new() { Today = new(2026, 6, 1) });
}
