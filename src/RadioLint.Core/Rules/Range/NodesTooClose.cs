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
            if (!judged.Radiates)
                continue;
            var missing = judged.Missing().ToList();
            foreach (var (node, key) in missing)
                yield return Waits(node, key);
            if (missing.Count == 0 && Strongest(judged) is { } worst && worst.Level > worst.To.Part!.StrongestSignal.Value - Reserve)
                yield return TooStrong(judged, worst.From, worst.To, worst.Level);
        }
    }

    private static (Node From, Node To, PowerLevel Level)? Strongest(JudgedHop judged)
    {
        (Node, Node, PowerLevel Level)? worst = null;
        var loss = PathEstimate.Least(judged.Hop.Link.Distance!.Value.Low, judged.Hop.Link.Through);
        foreach (var (from, to, budget) in judged.Directions(loss))
        {
            var level = LinkBudget.AtChip(to, budget.Received);
            if (worst is null || level > worst.Value.Level)
                worst = (from, to, level);
        }
        return worst;
    }

    private Finding TooStrong(JudgedHop judged, Node from, Node to, PowerLevel level)
    {
        var distance = judged.Hop.Link.Distance!;
        var limit = to.Part!.StrongestSignal.Value;
        var excess = level - (limit - Reserve);
        // A centimetre more than where it just suffices.
        var clear = new Length(PathLoss.FreeSpaceReach(PathLoss.MidBand, PathLoss.FreeSpace(PathLoss.MidBand, distance.Value.Low) + excess).Millimetres + 10);
        var step = from.Part!.PowerSteps.FirstOrDefault(one => one.Step < from.Power!.Value && level - (Conducted(from, from.Power.Value) - Conducted(from, one.Step)) <= limit - Reserve);
        var isTooStrong = level > limit;
        return At(
            judged.Hop, distance.Place,
            $"`{to.Label}` gets {level} at its chip from `{from.Label}` at {distance.Value.Low}, {(isTooStrong ? level - limit : excess)} above the {(isTooStrong ? limit : limit - Reserve)} {(isTooStrong ? "that it stands" : "that leave it a reserve of 10 dB")}",
            step is null
                ? (FormattableString)$"keep the antennas {clear} or more apart, or use a module without amplifier on the bench"
                : $"use `power: {step.Step}` at `{from.Label}`, or keep the antennas {clear} or more apart",
            step is null ? [] : Weaker(from, step.Step)) with
        { Severity = isTooStrong ? Severity.Error : Severity.Warning };
    }

    private static PowerLevel Conducted(Node node, PowerLevel step) => node.FrontEnd?.Output(step) ?? step;

    private static Fix[] Weaker(Node node, PowerLevel step) => node.Power is { IsDefault: false } power ? [Offer($"Use {step}", power.Place, $"{step}")]
        : FurtherKey.BehindBoard(node, "power", $"{step}") is { } edit ? [Offer($"State {step}", [edit])] : [];
}
