using System.Collections.Immutable;
using System.Text;
using RadioLint.Findings;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Rules;

/// <summary>Edits of the RL8xxx rules that are newer than the reader: what was wrong is gone, and nothing else is.</summary>
public sealed class HygieneFixTests
{
    public static TheoryData<string> Files() =>
        [.. Fixtures.All().Where(file => file.StartsWith("RL8012/", StringComparison.Ordinal) || file.StartsWith("RL8402/", StringComparison.Ordinal))];

    [Theory, MemberData(nameof(Files))]
    public void What_was_wrong_is_gone(string file)
    {
        var text = File.ReadAllText(Path.Combine(Fixtures.Rules, file));
        foreach (var finding in Check(file, text))
        {
            foreach (var fix in finding.Fixes.Where(_ => finding.Rule.Id == file[..6]))
                Assert.DoesNotContain(Check(file, Apply(text, fix)), other => other.Rule.Id == finding.Rule.Id || other.Rule.Id == "RL8001");
        }
    }

    [Fact]
    public void Tabs_become_two_blanks_each_and_only_where_they_indent()
    {
        var finding = Assert.Single(Check("RL8012/x.radio.yaml", "radiolint: 1\nnodes:\n\thall:\n\t\tboard:\tesp32\n\t\n# x\n"));
        Assert.Equal(FixGrade.Safe, Assert.Single(finding.Fixes).Grade);
        Assert.Equal("radiolint: 1\nnodes:\n  hall:\n    board:\tesp32\n\t\n# x\n", Apply(finding.Place.Source.Text, finding.Fixes[0]));
    }

    [Theory]
    [InlineData("radiolint: 1\nnodes:\n  hall:\n\t\tboard: esp32\n")]
    [InlineData("radiolint: 1\nnodes:\n\thall:\n\t  board: esp32\n")]
    public void Where_blanks_indent_as_well_nothing_is_offered(string text) => Assert.Empty(Assert.Single(Check("RL8012/x.radio.yaml", text)).Fixes);

    // Unicode 15.0, table 3-7: 0xFF begins no sequence; it begins the byte order mark of UTF-16, little end first.
    [Fact]
    public void Bytes_that_are_not_Utf8_have_a_place()
    {
        byte[] bytes = [.. Encoding.UTF8.GetBytes("radiolint: 1\nnetwork: k"), 0xFC, (byte)'h'];
        var finding = Assert.Single(Linter.Check("x.radio.yaml", bytes).Findings);
        Assert.Equal(("RL8012", "x.radio.yaml:2:11", "the byte 0xFC here is not UTF-8"), (finding.Rule.Id, finding.Place.ToString(), finding.Message));
        Assert.Equal("x.radio.yaml:1:1", Assert.Single(Linter.Check("x.radio.yaml", [0xFF, 0xFE, (byte)'r', 0]).Findings).Place.ToString());
    }

    private static string Apply(string text, Fix fix)
    {
        foreach (var edit in fix.Edits.OrderByDescending(edit => edit.Place.Start))
            text = text[..edit.Place.Start] + edit.NewText + text[edit.Place.End..];
        return text;
    }

    private static ImmutableArray<Finding> Check(string file, string text) => Linter.Check(new SourceText("x.radio.yaml", text), Fixtures.Options(file[..6], file)).Findings;
}
