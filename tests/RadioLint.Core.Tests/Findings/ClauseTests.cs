using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Findings;

/// <summary>Sentences of profiles inside ours.</summary>
public sealed class ClauseTests
{
    [Theory]
    [InlineData("At most 3 mA sink", "at most 3 mA sink")]
    [InlineData("A 10 k pull-up holds it. Add one.", "a 10 k pull-up holds it; add one")]
    [InlineData("Native MISO; floating. Add a pull-up", "native MISO; floating; add a pull-up")]
    [InlineData("MISO floats. GPIO2 is a strap.", "MISO floats. GPIO2 is a strap")]
    [InlineData("gives 2.7 V, above VIH 2.48 V", "gives 2.7 V, above VIH 2.48 V")]
    [InlineData("", "")]
    [InlineData("A", "a")]
    public void Begin_small_and_end_without_a_stop(string sentence, string clause) => Assert.Equal(clause, Clause.Of(sentence));
}
