using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules;
using RadioLint.Survey;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Survey;

/// <summary>
/// Each rule on surveys on its own files, `RLnnnn/NAME.survey`: a manifest, then logs, each after a line `--- NAME`. What they come to stands in the file beside, which a
/// person has read; marks in comments stand under what they judge. The examples of the pages are of the same form.
/// </summary>
public sealed class FixtureTests
{
    private static readonly DateTime Today = new(2026, 6, 1);

    private static string Folder => Path.Combine(Fixtures.Root, "tests", "RadioLint.Core.Tests", "Survey");

    public static TheoryData<string> Files() => [.. All()];

    public static TheoryData<string> Pages() => [.. Catalogue.OfSurvey.Select(rule => rule.Id)];

    [Theory, MemberData(nameof(Files))]
    public void Says_what_stands_beside(string file)
    {
        var judged = Judged.Of(File.ReadAllText(Path.Combine(Folder, file)));
        Golden.Compare(Path.Combine(Folder, Path.ChangeExtension(file, ".found")), Said(judged.Findings));
    }

    [Fact]
    public void Every_rule_has_a_survey_that_fails_and_one_that_passes()
    {
        foreach (var rule in Catalogue.OfSurvey)
        {
            var files = All().Where(file => file.StartsWith(rule.Id + "/", StringComparison.Ordinal)).ToList();
            Assert.True(files.Exists(file => Trips(file, rule)), $"{rule.Id} has no survey that fails");
            Assert.True(files.Exists(file => !Trips(file, rule)), $"{rule.Id} has no survey that passes");
        }
    }

    [Fact]
    public void What_is_called_passing_passes_and_the_rest_fails() => Assert.All(
        All(), file => Assert.Equal(!file[7..].StartsWith("passes", StringComparison.Ordinal), Trips(file, Catalogue.Find(file[..6])!)));

    [Fact]
    public void Messages_keep_the_voice()
    {
        var findings = All().SelectMany(file => Judged.Of(File.ReadAllText(Path.Combine(Folder, file))).Findings).ToList();
        Assert.True(findings.Count > 20);
        foreach (var finding in findings)
        {
            Assert.DoesNotMatch("[\r\n]|[.!]$|[Pp]lease|^$", finding.Message);
            Assert.DoesNotMatch("[\r\n]|[.!]$|[Pp]lease|^$", finding.Help);
            Assert.Matches("^[a-z]", finding.Help);
            Assert.Matches("[0-9]", finding.Message);
        }
    }

    // What is offered must be no news to the rules on manifests.
    [Fact]
    public void Every_channel_that_is_offered_is_accepted()
    {
        var offers = 0;
        foreach (var file in All())
        {
            var judged = Judged.Of(File.ReadAllText(Path.Combine(Folder, file)));
            var before = Told(judged.Manifest);
            foreach (var fix in judged.Findings.SelectMany(finding => finding.Fixes))
            {
                offers++;
                var edit = Assert.Single(fix.Edits);
                var text = judged.Manifest.Remove(edit.Place.Start, edit.Place.Length).Insert(edit.Place.Start, edit.NewText);
                Assert.Empty(Told(text).Except(before));
                // And the survey itself has nothing more against it.
                Assert.DoesNotContain(Judged.Of(judged.Whole.Replace(judged.Manifest, text, StringComparison.Ordinal)).Findings, finding => finding.Rule.Id == "RL3304");
            }
        }
        Assert.True(offers >= 6, $"{offers}");

        static List<string> Told(string manifest) => [.. Linter.Check(new SourceText("a.radio.yaml", manifest)).Findings.Where(finding => finding.Severity >= Severity.Warning).Select(finding => finding.Rule.Id)];
    }

    [Theory, MemberData(nameof(Pages))]
    public void Pages_do_not_lie(string id)
    {
        var blocks = Fixtures.Blocks(File.ReadAllText(Path.Combine(Fixtures.Pages, id + ".md")), "text").ToList();
        Assert.Equal(2, blocks.Count);
        foreach (var block in blocks)
        {
            var judged = Judged.Of(block);
            var expected = judged.Marks.Where(mark => mark.Mark.Id == id).Select(mark => $"{mark.File}:{mark.Mark}").ToList();
            Assert.Equal(block == blocks[0], expected.Count > 0);
            Assert.Equal(expected, judged.Findings.Where(finding => finding.Rule.Id == id).Select(finding => $"{finding.Place.Source.Name}:{Mark.Of(finding)}"));
        }
    }

    private static bool Trips(string file, Descriptor rule) => Judged.Of(File.ReadAllText(Path.Combine(Folder, file))).Findings.Any(finding => finding.Rule == rule);

    private static IEnumerable<string> All() => Directory.EnumerateFiles(Folder, "*.survey", SearchOption.AllDirectories)
        .Select(file => Path.GetRelativePath(Folder, file).Replace('\\', '/')).Order(StringComparer.Ordinal);

    private static string Said(ImmutableArray<Finding> findings)
    {
        var said = new StringBuilder();
        foreach (var finding in findings)
        {
            said.Append(CultureInfo.InvariantCulture, $"{finding.Place.Source.Name}:{Mark.Of(finding)}\n  {finding.Help}\n");
            foreach (var fix in finding.Fixes)
                said.Append(CultureInfo.InvariantCulture, $"  {fix.Grade}: {fix.Title}\n");
        }
        return said.Length == 0 ? "nothing\n" : said.ToString();
    }

    /// <summary>A file of that form, judged.</summary>
    private sealed record Judged(string Whole, string Manifest, Network Network, ImmutableArray<Finding> Findings, ImmutableArray<(string File, Mark Mark)> Marks)
    {
        public static Judged Of(string whole)
        {
            var parts = ("--- manifest.radio.yaml\n" + whole).Split("--- ", StringSplitOptions.RemoveEmptyEntries)
                .Select(part => (Name: part[..part.IndexOf('\n', StringComparison.Ordinal)], Text: part[(part.IndexOf('\n', StringComparison.Ordinal) + 1)..])).ToList();
            var network = Linter.Check(new SourceText(parts[0].Name, parts[0].Text)).Network!;
            var gathering = new SurveyGathering();
            var logs = parts.Skip(1).Select(part => Read(part.Name, part.Text, network, gathering)).ToImmutableArray();
            Assert.NotEmpty(gathering.Places);
            var evidence = SurveyEvidence.Of(network, logs, SurveyJudgement.Rank(network, gathering.Places), Today);
            return new(
                whole, parts[0].Text, network, Linter.Settle(evidence.Check(), network, new() { Today = Today }),
                [.. parts.SelectMany(part => Mark.ReadAll(part.Text).Select(mark => (part.Name, mark))).OrderBy(mark => mark.Name, StringComparer.Ordinal)]);
        }

        // As the command does.
        private static HeardLog Read(string name, string text, Network network, SurveyGathering gathering)
        {
            var entry = network.Survey.FirstOrDefault(one => one.Value.File?.Value == name);
            var reader = gathering.Open(name, new()
            {
                Place = entry?.Value.Place?.Value, Started = entry?.Value.Taken?.Value, Dwell = entry?.Value.Dwell?.Value, Lasted = entry?.Value.Lasted?.Value,
            });
            var number = 0;
            foreach (var line in text.Split('\n'))
                reader.Add(new(line, ++number));
            return new(reader.End(), entry);
        }
    }
}
