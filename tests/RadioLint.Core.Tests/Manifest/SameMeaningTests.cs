using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Manifest;

/// <summary>The same manifest written otherwise is judged the same.</summary>
public sealed class SameMeaningTests
{
    // Quotes decide RL8006, which JSON's are; RL8002 is about the text itself, of which a tree keeps one.
    private static readonly string[] AboutTheText = ["RL8001", "RL8002", "RL8006"];

    public static TheoryData<string> Files() => [.. Fixtures.All()];

    [Theory, MemberData(nameof(Files))]
    public void As_json(string file) => Compare(file, Rewriting.AsWritten);

    [Theory, MemberData(nameof(Files))]
    public void With_its_maps_turned_round(string file) => Compare(file, entries => entries.Reverse());

    [Theory, MemberData(nameof(Files))]
    public void With_its_maps_sorted(string file) => Compare(file, entries => entries.OrderBy(entry => entry.Key.Text, StringComparer.Ordinal));

    [Fact]
    public void The_rewriting_changes_something()
    {
        var tree = Rewriting.Tree("a.radio.yaml", "b: [1, x]\na: { d: yes, c: \"1\" }\npayloads: { p: { z: int8, y: int8 } }\n")!;
        Assert.Equal("""{"b": [1, "x"], "a": {"d": "yes", "c": "1"}, "payloads": {"p": {"z": "int8", "y": "int8"}}}""" + "\n", Rewriting.ToJson(tree, Rewriting.AsWritten));
        Assert.Equal("""{"payloads": {"p": {"z": "int8", "y": "int8"}}, "a": {"c": "1", "d": "yes"}, "b": [1, "x"]}""" + "\n", Rewriting.ToJson(tree, entries => entries.Reverse()));
    }

    private static void Compare(string file, Func<IEnumerable<Entry>, IEnumerable<Entry>> arrange)
    {
        var text = File.ReadAllText(Path.Combine(Fixtures.Rules, file));
        var findings = Linter.Check(new SourceText(file, text), Fixtures.Options(file[..6], file)).Findings;
        if (findings.Any(finding => AboutTheText.Contains(finding.Rule.Id)) || Rewriting.Tree(file, text) is not { } tree)
            return;
        var again = Linter.Check(new SourceText("again.radio.json", Rewriting.ToJson(tree, arrange)), Fixtures.Options(file[..6], file)).Findings;
        Assert.Equal(Rewriting.Said(findings), Rewriting.Said(again));
    }
}
