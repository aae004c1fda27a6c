using RadioLint.Findings;
using RadioLint.Rules;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Manifest;

/// <summary>docs/manifest.md against the tables of the reader.</summary>
public sealed class ReferenceTests
{
    public static TheoryData<int> Blocks() => [.. Enumerable.Range(0, Reference.Blocks.Count)];

    [Theory, MemberData(nameof(Blocks))]
    public void Every_example_is_read(int number)
    {
        var ids = Catalogue.OfReading.Select(rule => rule.Id).ToHashSet(StringComparer.Ordinal);
        var text = Reference.Blocks[number];
        // The plan in the field, which one of the examples names, is no file of the reference.
        var options = new CheckOptions { Today = new(2026, 6, 1), Include = file => file == "field.radio.yaml" ? System.Text.Encoding.UTF8.GetBytes(text) : null };
        var faults = Linter.Check(new SourceText("reference.radio.yaml", text), options).Findings
            .Where(finding => finding.Severity is not Severity.Info && ids.Contains(finding.Rule.Id));
        Assert.Equal([], faults.Select(finding => $"{finding.Place} {finding.Rule.Id} {finding.Message}"));
    }

    [Fact]
    public void The_smallest_useful_file_stands_whole_in_section_9()
    {
        var section = Reference.Text[Reference.Text.IndexOf("\n## 9 ", StringComparison.Ordinal)..Reference.Text.IndexOf("\n## 10 ", StringComparison.Ordinal)];
        var block = Fixtures.Blocks(section, "yaml").Last();
        Assert.StartsWith("radiolint: 1\n", block, StringComparison.Ordinal);
        Assert.NotNull(Linter.Check(new SourceText("smallest.radio.yaml", block)).Network);
    }

    [Fact]
    public void Every_key_is_in_a_table()
    {
        var rows = Reference.Text.Split('\n').Where(line => line.StartsWith("| `", StringComparison.Ordinal)).ToList();
        var words = Reference.Text.Split('`');
        var missing = SchemaWalk.Maps().SelectMany(map => map.Keys.Select(key => (map.What, key)))
            .Where(pair => !rows.Exists(row => row.Contains($"`{pair.key.Name}`", StringComparison.Ordinal))
                && !words.Any(word => word == pair.key.Name || word.StartsWith($"{{ {pair.key.Name}", StringComparison.Ordinal) || word.Contains($", {pair.key.Name}", StringComparison.Ordinal)))
            .Select(pair => $"{pair.What}: {pair.key.Name}");
        Assert.Equal([], missing);
    }

    [Fact]
    public void Defaults_are_those_of_the_reader()
    {
        var rows = Reference.Text.Split('\n').Where(line => line.StartsWith("| `", StringComparison.Ordinal)).Select(line => line.Split('|')).ToList();
        var wrong = SchemaWalk.Maps().SelectMany(map => map.Keys.Select(key => (map.What, key))).Where(pair => pair.key.Default is not null)
            .Where(pair => !rows.Exists(row => row[1].Contains($"`{pair.key.Name}`", StringComparison.Ordinal) && row[3].Contains($"`{pair.key.Default}`", StringComparison.Ordinal)))
            .Select(pair => $"{pair.What}: {pair.key.Name} is {pair.key.Default}").ToList();
        Assert.Equal([], wrong);
        Assert.True(SchemaWalk.Maps().SelectMany(map => map.Keys).Count(key => key.Default is not null) > 15);
    }
}
