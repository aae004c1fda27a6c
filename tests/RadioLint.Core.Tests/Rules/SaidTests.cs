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
