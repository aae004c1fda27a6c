using System.Collections.Immutable;
using RadioLint.Cli.Checking;
using RadioLint.Cli.Files;
using RadioLint.Cli.Terminal;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Planning;

namespace RadioLint.Cli.Fill;

/// <summary>Fills one manifest in memory.</summary>
/// <param name="measured">What a survey knows of the channels at the place of a network; null where there is none.</param>
internal sealed class FillRun(CheckTerms terms, Surroundings around, Func<Network, ChannelCosts?> measured)
{
    /// <summary>What is chosen for a network that was read, and the text with it.</summary>
    public FillOutcome Fill(ManifestFile file, byte[] bytes, CheckResult before)
    {
        var network = before.Network!;
        var plan = Filling.Plan(network, measured(network));
        var (pins, missing) = PinChoices.Of(network);
        var written = ManifestWriter.Write(network, plan.Conflict.IsEmpty ? plan.Choices.AddRange(pins) : []);
        var outcome = new FillOutcome(file, network, plan, written, missing, []);
        return outcome.IsChanged ? outcome with { New = Judged(file, Bytes(outcome, bytes), before) } : outcome;
    }

    /// <summary>The filled text as a file, its byte order mark kept.</summary>
    public static byte[] Bytes(FillOutcome outcome, byte[] original) => WholeFile.WithMark(original, outcome.Written.Text);

    // What was wrong before is no fault of the choices; what cannot be read any more would be ours.
    private ImmutableArray<Finding> Judged(ManifestFile file, byte[] bytes, CheckResult before)
    {
        var after = new CheckRun(terms, around).Check(file, bytes);
        if (after.Network is null)
            throw new InvalidOperationException("the filled manifest does not read");
        var known = before.Findings.Select(Words).ToHashSet();
        return [.. after.Findings.Where(finding => finding.Severity >= Severity.Warning && !known.Contains(Words(finding)))];
    }

    private static (string, string) Words(Finding finding) => (finding.Rule.Id, finding.Message);
}
