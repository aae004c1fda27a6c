using System.Collections.Immutable;
using System.Text;
using RadioLint.Findings;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Manifest;

/// <summary>Files that a manifest includes: found below its folder, each read once, faults named by their own file.</summary>
public sealed class IncludeTests
{
    private static readonly Dictionary<string, string> Files = new()
    {
        ["boards.yaml"] = "radiolint: 1\nboards: { hive-board: { based-on: atmega328p, clock: 8 MHz } }\n",
        ["again.yaml"] = "radiolint: 1\ninclude: [boards.yaml, parts/payloads.yaml]\n",
        ["parts/payloads.yaml"] = "radiolint: 1\npayloads: { reading: { weight: int32 g } }\n",
        ["circle.yaml"] = "radiolint: 1\ninclude: half.yaml\n",
        ["half.yaml"] = "radiolint: 1\ninclude: circle.yaml\n",
        ["self.yaml"] = "include: self.yaml\n",
        ["broken.yaml"] = "radiolint: 1\nboards: { a: [ }\n",
        ["nodes.yaml"] = "radiolint: 1\nnodes: { b: { board: esp32 } }\n",
    };

    [Fact]
    public void What_is_included_is_known() =>
        Assert.DoesNotContain(Check("[again.yaml, boards.yaml]"), finding => finding.Severity is Severity.Error);

    [Theory]
    [InlineData("circle.yaml", "site/half.yaml:2:10 RL8008")]
    [InlineData("self.yaml", "site/self.yaml:1:10 RL8008")]
    [InlineData("[boards.yaml, gone.yaml]", "site/a.radio.yaml:4:24 RL8008")]
    [InlineData("broken.yaml", "site/broken.yaml:2:16 RL8001")]
    [InlineData("nodes.yaml", "site/nodes.yaml:2:1 RL8003")]
    [InlineData("../boards.yaml", "site/a.radio.yaml:4:10 RL8008")]
    [InlineData("parts/../boards.yaml", "site/a.radio.yaml:4:10 RL8008")]
    [InlineData("./boards.yaml", "site/a.radio.yaml:4:10 RL8008")]
    [InlineData("C:/boards.yaml", "site/a.radio.yaml:4:10 RL8008")]
    [InlineData("parts\\payloads.yaml", "site/a.radio.yaml:4:10 RL8008")]
    public void A_fault_is_named_by_the_file_that_has_it(string include, string expected) => Assert.Equal(
        [expected],
        Check(include).Where(finding => finding.Rule.Id is "RL8001" or "RL8003" or "RL8008").Select(finding => $"{finding.Place} {finding.Rule.Id}"));

    [Fact]
    public void No_more_than_64_files_are_included()
    {
        var names = string.Join(", ", Enumerable.Range(1, 65).Select(n => FormattableString.Invariant($"f{n}.yaml")));
        var finding = Assert.Single(Check($"[{names}]", _ => "radiolint: 1\n"u8.ToArray()), finding => finding.Rule.Id == "RL8008");
        Assert.Equal("more than 64 files are included", finding.Message);
        Assert.Equal("f65.yaml", finding.Place.Text);
    }

    private static ImmutableArray<Finding> Check(string include) =>
        Check(include, file => Files.TryGetValue(file, out var text) ? Encoding.UTF8.GetBytes(text) : null);

    private static ImmutableArray<Finding> Check(string include, Func<string, byte[]?> files) => Linter.Check(
        new SourceText("site/a.radio.yaml", $"radiolint: 1\nnetwork: a\nregion: GB\ninclude: {include}\nnodes: {{ a: {{ board: {(include.Contains("again", StringComparison.Ordinal) ? "hive-board" : "esp32")} }} }}\n"),
        new() { Include = files }).Findings;
}
