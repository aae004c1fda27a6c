using System.Globalization;
using System.Text;
using RadioLint.Findings;
using RadioLint.Rules;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests.Readback;

/// <summary>Each rule on its own logs, `RLnnnn/NAME.NODE.log`: verdict, findings, help and other places stand in the file beside, which a person has read.</summary>
public sealed class FixtureTests
{
    private static string Folder => Path.Combine(Fixtures.Root, "tests", "RadioLint.Core.Tests", "Readback");

    public static TheoryData<string> Files() => [.. All()];

    public static TheoryData<string> Pages() => [.. Catalogue.OfReadback.Select(rule => rule.Id)];

    [Theory, MemberData(nameof(Files))]
    public void Says_what_stands_beside(string file)
    {
        var (_, judgement) = Judge(file);
        Golden.Compare(Path.Combine(Folder, Path.ChangeExtension(file, ".found")), Said(judgement));
    }

    [Fact]
    public void Every_rule_has_a_log_that_fails_and_one_that_passes()
    {
        foreach (var rule in Catalogue.OfReadback)
        {
            var found = All().Where(file => file.StartsWith(rule.Id + "/", StringComparison.Ordinal)).Select(file => Judge(file).Judgement.Findings.Any(one => one.Rule == rule)).ToList();
            Assert.True(found.Contains(true), $"{rule.Id} has no log that fails");
            Assert.True(found.Contains(false), $"{rule.Id} has no log that passes");
        }
    }

    [Fact]
    public void Logs_belong_to_rules() => Assert.All(All(), file => Assert.Contains(Catalogue.OfReadback, rule => rule.Id == file[..6]));

    [Fact]
    public void What_is_called_passing_passes() => Assert.All(
        All().Where(file => file[7..].StartsWith("passes", StringComparison.Ordinal)), file => Assert.DoesNotContain(Judge(file).Judgement.Findings, one => one.Rule.Id == file[..6]));

    [Fact]
    public void Messages_keep_the_voice()
    {
        var findings = All().SelectMany(file => Judge(file).Judgement.Findings).ToList();
        Assert.True(findings.Count > 60);
        foreach (var finding in findings)
        {
            Assert.DoesNotMatch("[\r\n]|[.!]$|[Pp]lease|^$", finding.Message);
            Assert.DoesNotMatch("[\r\n]|[.!]$|[Pp]lease|^$", finding.Help);
            Assert.Matches("^[a-z]", finding.Help);
            Assert.Matches("[0-9]", finding.Message);
            Assert.NotEmpty(finding.NodeNames);
        }
    }

    // The pages' logs are of docs/examples; marks stand under the lines they judge.
    [Theory, MemberData(nameof(Pages))]
    public void Pages_do_not_lie(string id)
    {
        var page = File.ReadAllText(Path.Combine(Fixtures.Pages, id + ".md"));
        var blocks = Fixtures.Blocks(page, "text").ToList();
        Assert.Equal(2, blocks.Count);
        foreach (var block in blocks)
        {
            var node = block.Split('\n')[0].TrimEnd(':');
            var log = string.Join('\n', block.Split('\n').Select(line => line.TrimStart().StartsWith('#') ? "" : line));
            var expected = Mark.ReadAll(block);
            Assert.Equal(block == blocks[0], expected.Any(mark => mark.Id == id));
            var found = Logs.Judge("page.log", log, node).Judgement.Findings.Select(Mark.Of);
            Assert.Equal(expected.Select(mark => mark.ToString()), Mark.Against(expected, found));
        }
    }

    private static (RadioLint.Readback.LogContent Log, RadioLint.Readback.Judgement Judgement) Judge(string file) =>
        Logs.Judge(Path.GetFileName(file), File.ReadAllText(Path.Combine(Folder, file)), Path.GetFileNameWithoutExtension(file).Split('.')[1]);

    private static IEnumerable<string> All() => Directory.EnumerateFiles(Folder, "*.log", SearchOption.AllDirectories)
        .Select(file => Path.GetRelativePath(Folder, file).Replace('\\', '/')).Order(StringComparer.Ordinal);

    private static string Said(RadioLint.Readback.Judgement judgement)
    {
        var said = new StringBuilder();
        foreach (var node in judgement.Nodes)
            said.Append(CultureInfo.InvariantCulture, $"{node.Name}: {node.Verdict}, {node.Different} of {node.Compared}{(node.Order is { } order ? $", {order} order" : "")}\n");
        foreach (var finding in judgement.Findings)
        {
            said.Append(CultureInfo.InvariantCulture, $"{Mark.Of(finding)}\n  {finding.Help}\n");
            foreach (var other in finding.Related)
                said.Append(CultureInfo.InvariantCulture, $"  see {other.Place.Source.Name}:{other.Place.From.Line}:{other.Place.From.Column} {other.Message}\n");
        }
        return said.ToString();
    }
}
