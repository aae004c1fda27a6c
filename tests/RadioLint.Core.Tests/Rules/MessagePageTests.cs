using System.Globalization;
using System.Text;
using RadioLint.Findings;
using RadioLint.Rules;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests.Rules;

/// <summary>docs/rules/messages.md: what each rule says, taken from its fixtures, so that all of it can be read in one go.</summary>
public sealed class MessagePageTests
{
    private const string Head =
        "# Messages\n\nWhat each rule says, with one example: the first finding of its fixtures. Written by the tests (`RADIOLINT_REWRITE=1`); to be read as somebody at the bench would, before a release.\n"
        + "Rules that speak while a C# host is compiled, or that only `emit` or a whole run can meet, show theirs on their pages.\n";

    [Fact]
    public void The_page_is_what_the_rules_say()
    {
        var said = FirstOfEach();
        var page = new StringBuilder(Head);
        foreach (var module in Catalogue.OfManifests.Where(rule => said.ContainsKey(rule.Id)).GroupBy(rule => rule.Id[2]))
        {
            page.Append(CultureInfo.InvariantCulture, $"\n## RL{module.Key}xxx\n```text\n");
            foreach (var rule in module)
            {
                var finding = said[rule.Id];
                page.Append(CultureInfo.InvariantCulture, $"{rule.Id} {finding.Severity.ToString().ToLowerInvariant()}: {finding.Message}\n  help: {finding.Help}\n");
            }
            page.Append("```\n");
        }
        Golden.Compare(Path.Combine(Fixtures.Pages, "messages.md"), page.ToString());
    }

    [Fact]
    public void No_rule_that_a_manifest_can_show_is_missing()
    {
        var said = FirstOfEach();
        Assert.All(Catalogue.OfManifests.Where(rule => !Catalogue.OfEmitting.Contains(rule) && !Catalogue.OfRuns.Contains(rule)), rule => Assert.True(said.ContainsKey(rule.Id), rule.Id));
    }

    private static Dictionary<string, Finding> FirstOfEach()
    {
        var said = new Dictionary<string, Finding>(StringComparer.Ordinal);
        foreach (var file in Fixtures.All().Where(file => !said.ContainsKey(file[..6])))
        {
            var found = Linter.Check(file[7..], File.ReadAllBytes(Path.Combine(Fixtures.Rules, file)), Fixtures.Options(file[..6], file)).Findings;
            if (found.FirstOrDefault(finding => finding.Rule.Id == file[..6]) is { } finding)
                said.Add(file[..6], finding);
        }
        return said;
    }
}
