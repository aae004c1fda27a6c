using RadioLint.Findings;
using RadioLint.Text;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests.Findings;

/// <summary>A finding keeps its name while lines move, and two findings never share one.</summary>
public sealed class FindingNameTests
{
    private static string Mistakes => File.ReadAllText(Path.Combine(Fixtures.Root, "docs", "examples", "larkfield-mistakes", "larkfield-mistakes.radio.yaml"));

    [Fact]
    public void Names_are_distinct() => Assert.Distinct(Names(Mistakes));

    [Theory]
    [InlineData("\nnodes:", "\n# a remark\n\n\nnodes:")]
    [InlineData("  channel: 90", "  channel:   90")]
    [InlineData("# looks quiet: nobody may send there", "# another remark")]
    public void Lines_blanks_and_comments_may_change(string before, string after)
    {
        Assert.Contains(before, Mistakes, StringComparison.Ordinal);
        Assert.Equal(Names(Mistakes), Names(Mistakes.Replace(before, after, StringComparison.Ordinal)));
    }

    [Fact]
    public void The_folder_may_change() => Assert.Equal(Names(Mistakes), Names(Mistakes, "elsewhere/larkfield-mistakes.radio.yaml"));

    [Fact]
    public void Another_value_is_another_finding()
    {
        var changed = Names(Mistakes.Replace("channel: 90", "channel: 91", StringComparison.Ordinal));
        Assert.Single(Names(Mistakes).Except(changed));
    }

    [Fact]
    public void Two_alike_are_told_apart_by_their_order()
    {
        var source = new SourceText("a.radio.yaml", "x\nx\n");
        var rule = RadioLint.Rules.Catalogue.All[0];
        Finding[] both = [new(rule, new(source, 0, 1), "m", "h"), new(rule, new(source, 2, 1), "m", "h")];
        Assert.Equal(2, FindingNames.Of(both).Select(one => one.Name).Distinct().Count());
    }

    private static List<string> Names(string text, string name = "larkfield-mistakes.radio.yaml") =>
        [.. FindingNames.Of(Linter.Check(new SourceText(name, text)).Findings).Select(one => one.Name)];
}
