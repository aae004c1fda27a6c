using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Rules;

/// <summary>What the rules on neighbours, beats and range offer is there to be taken; that it mends is held with the edits of all rules.</summary>
public sealed class RangeAndNeighbourFixTests
{
    // The column Auto of these rules offers an edit; each has a fixture whose finding carries one.
    [Theory]
    [InlineData("RL3106"), InlineData("RL3107"), InlineData("RL3202"), InlineData("RL3203"), InlineData("RL3207"), InlineData("RL4301")]
    [InlineData("RL7002"), InlineData("RL7202"), InlineData("RL7203")]
    public void Edits_are_offered(string rule) => Assert.Contains(
        Fixtures.All().Where(file => file.StartsWith(rule + "/", StringComparison.Ordinal)),
        file => Linter.Check(new SourceText(file, File.ReadAllText(Path.Combine(Fixtures.Rules, file)))).Findings
            .Any(finding => finding.Rule.Id == rule && finding.Fixes.Any(fix => fix.Grade is FixGrade.Offered)));
}
