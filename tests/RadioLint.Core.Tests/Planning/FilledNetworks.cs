using CsCheck;
using RadioLint.Findings;
using RadioLint.Planning;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Planning;

/// <summary>What is chosen, put where it belongs, leaves nothing open and brings no finding; and does not hang on the order of nodes.</summary>
public sealed class FilledNetworks(ITestOutputHelper output)
{
    private const int Drawn = 300;

    // Rules that judge what is chosen.
    private static readonly HashSet<string> Judges = new(StringComparer.Ordinal)
    {
        "RL3001", "RL3002", "RL3003", "RL3101", "RL3103", "RL3201", "RL3202", "RL3203", "RL3204", "RL3205", "RL3207", "RL4103", "RL4104", "RL4201", "RL4204", "RL4205", "RL4301",
        "RL5001", "RL5102", "RL5103", "RL5104", "RL5105", "RL5106", "RL6202", "RL7002", "RL7004", "RL7201", "RL7202", "RL7204", "RL8305",
    };

    [Fact]
    public void Choices_leave_nothing_open_and_bring_no_finding()
    {
        var (filled, conflicts, choices) = (0, 0, 0);
        for (ulong seed = 1; seed <= Drawn; seed++)
        {
            var manifest = PartialManifest.Draw(new(1, seed), 1 + (int)(seed % 5), 3);
            var before = Check(manifest);
            var plan = Filling.Plan(before.Network!, null);
            if (!plan.Conflict.IsEmpty)
            {
                conflicts++;
                continue;
            }
            var had = Heavy(before);
            // Rules that wait for the rate would have spoken had it been written, and so would those on a channel that the user wrote.
            manifest.Apply(before.Network!, plan.Choices.Where(choice => choice.Key.StartsWith("air.", StringComparison.Ordinal)));
            var isChannelOurs = plan.Choices.Any(choice => choice.Key == "air.channel");
            had.UnionWith(Heavy(Check(manifest)).Where(id => !isChannelOurs || string.CompareOrdinal(id, "RL3300") > 0 || id.StartsWith("RL31", StringComparison.Ordinal)));
            manifest.Apply(before.Network!, plan.Choices);
            var after = Check(manifest);
            var fresh = after.Findings.Where(finding => (IsHeavy(finding) && Judges.Contains(finding.Rule.Id) && !had.Contains(finding.Rule.Id) && !IsTheUsers(finding)) || finding.Rule.Id is "RL8305").ToList();
            Assert.True(fresh.Count == 0, $"seed {seed}: {string.Join("\n", fresh.Select(finding => $"{finding.Place} {finding.Rule.Id} {finding.Message}"))}\n{manifest.Text()}\n{string.Join("\n", plan.Choices)}");
            Assert.True(plan.Bound <= plan.Cost);
            Assert.All(plan.Choices.Concat(plan.Derived), choice => Assert.False(choice.Reason.Length == 0 || choice.Reason.Contains('\n', StringComparison.Ordinal), choice.Reason));
            // Once filled there is nothing more to choose but what facts are missing for.
            var again = Filling.Plan(after.Network!, null);
            Assert.True(again.Choices.IsEmpty, $"seed {seed}: {string.Join("\n", again.Choices)}\n{manifest.Text()}");
            (filled, choices) = (filled + 1, choices + plan.Choices.Length);
        }
        output.WriteLine($"{filled} networks filled with {choices} values, {conflicts} with conflicts");
        Assert.True(filled > Drawn / 2 && conflicts > Drawn / 50, $"{filled} filled, {conflicts} in conflict");
    }

    [Fact]
    public void The_order_of_nodes_and_links_does_not_matter()
    {
        for (ulong seed = 1; seed <= 60; seed++)
        {
            var manifest = PartialManifest.Draw(new(2, seed), 2 + (int)(seed % 6), 3);
            Assert.Equal(Told(manifest), Told(manifest.Turned()));
        }
    }

    private static string Told(PartialManifest manifest)
    {
        var plan = Filling.Plan(Check(manifest).Network!, null);
        return $"{plan.Cost} {plan.Bound}\n" + string.Join("\n", plan.Choices.Concat(plan.Derived)
            .Select(choice => $"{(choice.Target as Model.Node)?.Entry}{(choice.Target as Model.Link)?.Name} {choice.Key} {choice.Value} {choice.Reason}").OrderBy(line => line, StringComparer.Ordinal))
            + string.Join("\n", plan.Kept) + string.Join("\n", plan.Fixed.Select(one => $"{one.Key} {one.Value} {one.Better} {one.IfFree}")) + string.Join("\n", plan.Conflict.Select(one => one.Words));
    }

    private static CheckResult Check(PartialManifest manifest)
    {
        var result = Linter.Check(new SourceText("drawn.radio.yaml", manifest.Text()));
        Assert.True(result.Network is not null && !result.Findings.Any(finding => string.CompareOrdinal(finding.Rule.Id, "RL8000") > 0 && string.CompareOrdinal(finding.Rule.Id, "RL8009") < 0),
            manifest.Text() + string.Join("\n", result.Findings.Select(finding => $"{finding.Place} {finding.Rule.Id} {finding.Message}")));
        return result;
    }

    // A delay that the drawn manifest wrote: it is kept, and blamed itself where senders cannot be kept apart from it.
    private static bool IsTheUsers(Finding finding) => finding.Rule.Id == "RL5105" && finding.Place.Text == "2 ms";

    private static HashSet<string> Heavy(CheckResult result) => result.Findings.Where(IsHeavy).Select(finding => finding.Rule.Id).ToHashSet(StringComparer.Ordinal);

    private static bool IsHeavy(Finding finding) => finding.Severity is Severity.Error or Severity.Warning;
}
