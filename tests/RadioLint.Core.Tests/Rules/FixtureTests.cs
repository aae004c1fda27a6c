using RadioLint.Findings;
using RadioLint.Rules;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Rules;

/// <summary>
/// Each rule on its own files and on the examples of its page: exactly what the marks say, and nothing else. Of other rules errors count in files,
/// and on pages warnings too; what else they say of files, which could be better in many ways that are not their subject, SaidTests holds.
/// </summary>
public sealed class FixtureTests
{
    // Notes on facts that a short fixture leaves out, and what every 5 V board with a 3.3 V radio is told: even in their own folders only where a fixture marks them.
    internal static readonly string[] OnlyWhereMarked = ["RL1302", "RL1303", "RL8304", "RL8305"];

    public static TheoryData<string> Files() => [.. Fixtures.All()];

    // What a manifest beside C# is told, Core alone does not say.
    public static TheoryData<string> Pages() => [.. Fixtures.OfPages().Select(block => block.Name).Where(name => Catalogue.OfHostCode.All(rule => rule.Id != name[..6]))];

    [Theory, MemberData(nameof(Files))]
    public void Finds_what_the_marks_say_and_nothing_else(string file) =>
        Judge(file[..6], file, File.ReadAllText(Path.Combine(Fixtures.Rules, file)), Fixtures.MarksOf(file), Severity.Error);

    [Theory, MemberData(nameof(Pages))]
    public void Pages_do_not_lie(string name)
    {
        var text = Fixtures.OfPages().First(block => block.Name == name).Text;
        Judge(name[..6], "page.radio.yaml", text, Mark.ReadAll(text), Severity.Warning);
    }

    [Fact]
    public void Every_rule_has_a_page_a_fixture_that_fails_and_one_that_passes()
    {
        foreach (var rule in Catalogue.All)
        {
            Assert.True(File.Exists(Path.Combine(Fixtures.Pages, rule.Id + ".md")), $"{rule.Id} has no page");
            // No manifest alone shows these: the firmware tests do, for logs those of readback and of surveys, for whole runs those of the command, and for C# code the analyzers' tests of the pages.
            if (Catalogue.OfEmitting.Contains(rule) || Catalogue.OfRuns.Contains(rule) || Catalogue.OfReadback.Contains(rule) || Catalogue.OfSurvey.Contains(rule) || Catalogue.OfHostCode.Contains(rule))
                continue;
            var files = Fixtures.All().Where(file => file.StartsWith(rule.Id + "/", StringComparison.Ordinal)).ToList();
            Assert.True(files.Exists(file => Fixtures.MarksOf(file).Any(mark => mark.Id == rule.Id)), $"{rule.Id} has no fixture that fails");
            Assert.True(files.Exists(file => Fixtures.MarksOf(file).All(mark => mark.Id != rule.Id)), $"{rule.Id} has no fixture that passes");
        }
    }

    [Fact]
    public void Every_page_repeats_what_the_code_says()
    {
        foreach (var rule in Catalogue.All)
        {
            var page = File.ReadAllText(Path.Combine(Fixtures.Pages, rule.Id + ".md"));
            Assert.StartsWith($"# {rule.Id}: {rule.Title}\n", page, StringComparison.Ordinal);
            Assert.Contains($"\nSeverity: {rule.Severity.ToString().ToLowerInvariant()}. Since {rule.Since}.\n", page, StringComparison.Ordinal);
            foreach (var heading in new[] { "## What", "## Why it hurts", "## Limit", "## What to do", "## When to allow it", "## Example that fails", "## Example that passes" })
                Assert.Contains($"\n{heading}\n", page, StringComparison.Ordinal);
            // The whole section, so that a limit cannot be shortened unnoticed; a page may end it with a full stop.
            Assert.Equal(rule.Limit.TrimEnd('.'), page.Split("\n## Limit\n")[1].Split("\n\n")[0].TrimEnd('.'));
        }
    }

    [Fact]
    public void Fixtures_and_pages_belong_to_rules()
    {
        var ids = Catalogue.All.Select(rule => rule.Id).ToHashSet(StringComparer.Ordinal);
        Assert.All(Fixtures.All(), file => Assert.Contains(file[..6], ids));
        Assert.All(Directory.EnumerateFiles(Fixtures.Pages, "RL*.md"), file => Assert.Contains(Path.GetFileNameWithoutExtension(file), ids));
    }

    [Fact]
    public void Files_of_marks_belong_to_fixtures() => Assert.All(
        Directory.EnumerateFiles(Fixtures.Rules, "*.marks", SearchOption.AllDirectories),
        file => Assert.True(File.Exists(Path.ChangeExtension(file, ".radio.json")), file));

    private static void Judge(string id, string file, string text, IReadOnlyList<Mark> expected, Severity leastOfOthers)
    {
        var found = Linter.Check(new SourceText(file, text), Fixtures.Options(id, file)).Findings
            .Where(finding => finding.Severity >= leastOfOthers || IsOwn(finding.Rule.Id) || expected.Any(mark => mark.Id == finding.Rule.Id))
            .Select(Mark.Of);
        if (id != "RL8304")
            (expected, found) = (Own(expected), Own(found));
        Assert.Equal(expected.Select(mark => mark.ToString()), Mark.Against(expected, found));

        IReadOnlyList<Mark> Own(IEnumerable<Mark> marks) => [.. marks.Select(mark => mark.WithFactsFor(id)).OfType<Mark>()];

        bool IsOwn(string rule) => rule == id && !OnlyWhereMarked.Contains(rule);
    }
}
