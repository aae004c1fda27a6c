using System.Globalization;
using System.Text;
using RadioLint.Findings;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests.Rules;

/// <summary>
/// What a rule says beside its message: help, edits and other places. Marks hold the messages; `RLnnnn/said.txt` holds the rest of what
/// the rule finds in its own fixtures, and changes only when a person has read the difference.
/// </summary>
public sealed class SaidTests
{
    public static TheoryData<string> Ids() =>
        [.. Fixtures.All().Select(file => file[..6]).Distinct(StringComparer.Ordinal)];

    [Theory, MemberData(nameof(Ids))]
    public void Help_edits_and_other_places_are_those_read(string id)
    {
        var said = new StringBuilder();
        foreach (var file in Fixtures.All().Where(file => file.StartsWith(id + "/", StringComparison.Ordinal)))
        {
            var found = Linter.Check(file[7..], File.ReadAllBytes(Path.Combine(Fixtures.Rules, file)), Fixtures.Options(id, file)).Findings;
            foreach (var finding in found.Where(finding => finding.Rule.Id == id))
                Write(said, finding);
        }
        Golden.Compare(Path.Combine(Fixtures.Rules, id, "said.txt"), said.ToString());
    }

    // What a fixture is not about is not marked in it. It is held all the same: RLnnnn/besides.txt tells which warnings and infos of other rules stand
    // where, and each that comes or goes is a difference to read.
    [Theory, MemberData(nameof(Ids))]
    public void What_others_say_of_its_fixtures_is_what_was_read(string id)
    {
        var besides = new StringBuilder();
        foreach (var file in Fixtures.All().Where(file => file.StartsWith(id + "/", StringComparison.Ordinal)))
        {
            var marked = Fixtures.MarksOf(file).Select(mark => mark.Id).ToHashSet(StringComparer.Ordinal);
            var others = Linter.Check(file[7..], File.ReadAllBytes(Path.Combine(Fixtures.Rules, file)), Fixtures.Options(id, file)).Findings
                .Where(finding => finding.Severity is not Severity.Error && finding.Rule.Id != id && (marked.Contains(finding.Rule.Id) || !FixtureTests.OnlyWhereMarked.Contains(finding.Rule.Id)))
                .GroupBy(finding => $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Rule.Id}{(finding.Rule.Id == "RL8304" ? " " + finding.Message : "")}")
                .Select(group => string.Create(CultureInfo.InvariantCulture, $"  {group.Key} at {string.Join(", ", group.Select(finding => $"{finding.Place.From.Line}:{finding.Place.From.Column}"))}\n"))
                .Order(StringComparer.Ordinal)
                .ToList();
            if (others.Count > 0)
                besides.Append(file[7..]).Append('\n').Append(string.Concat(others));
        }
        var golden = Path.Combine(Fixtures.Rules, id, "besides.txt");
        if (besides.Length > 0 || File.Exists(golden))
            Golden.Compare(golden, besides.ToString());
    }

    private static void Write(StringBuilder said, Finding finding)
    {
        said.Append(CultureInfo.InvariantCulture, $"{finding.Place}\n  {finding.Help}\n");
        foreach (var other in finding.Related)
            said.Append(CultureInfo.InvariantCulture, $"  see {other.Place.From.Line}:{other.Place.From.Column} {other.Message}\n");
        foreach (var fix in finding.Fixes)
        {
            said.Append(CultureInfo.InvariantCulture, $"  {fix.Grade.ToString().ToLowerInvariant()}: {fix.Title}\n");
            foreach (var edit in fix.Edits)
                said.Append(CultureInfo.InvariantCulture, $"    {edit.Place.From.Line}:{edit.Place.From.Column} `{Line(edit.Place.Text)}` -> `{Line(edit.NewText)}`\n");
        }
    }

    private static string Line(string text) => text.Replace("\r", "\\r", StringComparison.Ordinal).Replace("\n", "\\n", StringComparison.Ordinal);
}
