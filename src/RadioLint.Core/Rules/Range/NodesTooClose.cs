using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Range;

/// <summary>RL7202: the signal is stronger than a receiver stands.</summary>
public sealed class NodesTooClose() : Rule(new(
    "RL7202", Severity.Warning, "Nodes too close",
    "0 dBm at the chip (nRF24L01+ Product Specification 1.0, Table 7), 10 dB short of it for warning; a preamplifier adds its gain; free space ITU-R P.525", "0.1"))
{
    private static readonly Gain Reserve = new(1_000);

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var judged in JudgedHop.Of(network))
        {
            if (!judged.HasPath)
                continue;
            var missing = judged.Missing().ToList();
            foreach (var (node, key) in missing)
                yield return Waits(node, key);
            if (missing.Count > 0)
                continue;
            var loss = PathEstimate.Least(judged.Hop.Link.Distance!.Value.Low, judged.Hop.Link.Through);
            var strong = judged.Directions(loss).Select(way => (way.From, way.To, Level: LinkBudget.AtChip(way.To, way.Budget.Received)))
                .Where(way => way.Level > way.To.Part!.StrongestSignal.Value - Reserve).OrderByDescending(way => way.Level).ToList();
            if (strong.Count > 0)
                yield return TooStrong(judged, strong);
        }
    }

    private Finding TooStrong(JudgedHop judged, List<(Node From, Node To, PowerLevel Level)> ways)
    {
        var (from, to, level) = ways[0];
        var distance = judged.Hop.Link.Distance!;
        var limit = to.Part!.StrongestSignal.Value;
        var excess = level - (limit - Reserve);
        // A centimetre more than where it just suffices.
        var clear = new Length(PathLoss.FreeSpaceReach(PathLoss.MidBand, PathLoss.FreeSpace(PathLoss.MidBand, distance.Value.Low) + excess).Millimetres + 10);
        var steps = ways.Select(way => (way.From, Step: Quieter(way.From, way.Level, way.To.Part!.StrongestSignal.Value - Reserve))).ToList();
        var isTooStrong = level > limit;
        return At(
            judged.Hop, distance.Place,
            $"`{to.Label}` gets {level} at its chip from `{from.Label}` at {distance.Value.Low}, {(isTooStrong ? level - limit : excess)} above the {(isTooStrong ? limit : limit - Reserve)} {(isTooStrong ? "that it stands" : "that leave it a reserve of 10 dB")}",
            steps.Exists(one => one.Step is null)
                ? (FormattableString)$"keep the antennas {clear} or more apart, or use a module without amplifier on the bench"
                : $"use {string.Join(" and ", steps.Select(one => $"`power: {one.Step}` at `{one.From.Label}`"))}, or keep the antennas {clear} or more apart",
            Weaker(steps)) with
        { Severity = isTooStrong ? Severity.Error : Severity.Warning };
    }

    // The strongest step that leaves the reserve; null when none does.
    private static PowerLevel? Quieter(Node node, PowerLevel level, PowerLevel most) => node.Part!.PowerSteps.Select(one => one.Step)
        .Where(step => step < node.Power!.Value && level - (Conducted(node, node.Power.Value) - Conducted(node, step)) <= most).Cast<PowerLevel?>().FirstOrDefault();

    private static PowerLevel Conducted(Node node, PowerLevel step) => node.FrontEnd?.Output(step) ?? step;

    // Both ends at once where both are too strong; nothing where one has no such step or no place to state it.
    private static Fix[] Weaker(List<(Node From, PowerLevel? Step)> steps)
    {
        var edits = steps.Select(one => one is not { Step: { } step } ? null : one.From.Power is { IsDefault: false } power ? Edit.Value(power.Place, $"{step}")
            : FurtherKey.BehindBoard(one.From, "power", $"{step}")).Distinct().ToList();
        return edits.Contains(null) || edits.Select(edit => edit!.Value.Place).Distinct().Count() < edits.Count ? [] : [Offer("Lower the power", edits.Select(edit => edit!.Value))];
    }
}
