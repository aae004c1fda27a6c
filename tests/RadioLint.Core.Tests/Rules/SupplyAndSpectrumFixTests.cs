using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Tests.Support;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Rules;

/// <summary>What the rules on supply and spectrum offer mends what it is offered for, and leads into no other finding of theirs.</summary>
public sealed class SupplyAndSpectrumFixTests
{
    public static TheoryData<string> Files() =>
        [.. Fixtures.All().Where(file => file[2] is '2' or '3' && file.EndsWith(".yaml", StringComparison.Ordinal))];

    [Theory, MemberData(nameof(Files))]
    public void What_was_wrong_is_gone_and_nothing_else_is(string file)
    {
        var text = File.ReadAllText(Path.Combine(Fixtures.Rules, file));
        var before = Check(text);
        foreach (var finding in before.Where(IsOurs))
        {
            foreach (var fix in finding.Fixes)
            {
                Assert.Equal(FixGrade.Offered, fix.Grade);
                var after = Check(Apply(text, fix));
                Assert.DoesNotContain(after, other => other.Rule.Id.StartsWith("RL80", StringComparison.Ordinal));
                Assert.DoesNotContain(after, other => other.Rule.Id == finding.Rule.Id && other.Place.From == finding.Place.From);
                Assert.All(after.Where(IsOurs), other => Assert.Contains(before, old => old.Rule.Id == other.Rule.Id));
            }
        }
    }

    // The column Auto of these rules offers an edit; each has a fixture whose finding carries one.
    [Theory, InlineData("RL2009"), InlineData("RL2014"), InlineData("RL2015"), InlineData("RL3001"), InlineData("RL3002"), InlineData("RL3003"), InlineData("RL3101"), InlineData("RL3201")]
    public void Edits_are_offered(string rule) => Assert.Contains(
        Fixtures.All().Where(file => file.StartsWith(rule + "/", StringComparison.Ordinal)),
        file => Check(File.ReadAllText(Path.Combine(Fixtures.Rules, file))).Any(finding => finding.Rule.Id == rule && !finding.Fixes.IsEmpty));

    [Theory]
    [InlineData("US", "83", "2 Mbps", "RL3002", "80")]
    [InlineData("GB", "83", "2 Mbps", "RL3002", "82")]
    [InlineData("US", "125", "1 Mbps", "RL3002", "82")]
    [InlineData("GB", "0", "2 Mbps", "RL3002", "2")]
    [InlineData("CA", "126", "2 Mbps", "RL3001", "80")]
    [InlineData("GB", "126", "250 kbps", "RL3001", "82")]
    [InlineData("US", "82", "2 Mbps", "RL3003", "80")]
    public void The_channel_offered_is_one_that_no_rule_minds(string region, string channel, string rate, string rule, string offered)
    {
        var text = $$"""
            radiolint: 1
            network: cellar
            region: {{region}}
            air: { channel: {{channel}}, rate: {{rate}} }
            nodes:
              hall: { board: atmega328p, supply: { from: adapter, input: 5 V, capacitor: 10 uF ceramic }, pins: { ce: D9, csn: D10 } }

            """;
        var finding = Assert.Single(Check(text), one => one.Rule.Id.StartsWith("RL30", StringComparison.Ordinal));
        Assert.Equal((rule, offered), (finding.Rule.Id, Assert.Single(Assert.Single(finding.Fixes).Edits).NewText));
        Assert.DoesNotContain(Check(Apply(text, finding.Fixes[0])), IsOurs);
    }

    // nRF24L01 has no 250 kbps: the offer falls back on its widest signal, 2 Mbps.
    [Fact]
    public void A_rate_that_the_part_lacks_does_not_hide_the_channel()
    {
        const string text = """
            radiolint: 1
            network: cellar
            region: GB
            air: { channel: 126, rate: 250 kbps }
            nodes:
              hall: { board: atmega328p, radio: { part: nRF24L01 }, supply: { from: adapter, input: 5 V, capacitor: 10 uF ceramic }, pins: { ce: D9, csn: D10 } }

            """;
        var finding = Check(text).Single(one => one.Rule.Id == "RL3001");
        Assert.Equal("82", finding.Fixes.Single().Edits.Single().NewText);
    }

    private static bool IsOurs(Finding finding) => finding.Rule.Id[2] is '2' or '3' && finding.Severity > Severity.Info;

    private static ImmutableArray<Finding> Check(string text) => Linter.Check(new SourceText("fix.radio.yaml", text)).Findings;

    private static string Apply(string text, Fix fix)
    {
        foreach (var edit in fix.Edits.OrderByDescending(edit => edit.Place.Start))
            text = text[..edit.Place.Start] + edit.NewText + text[edit.Place.End..];
        return text;
    }
}
