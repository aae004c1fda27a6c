using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Supply;

/// <summary>RL2015: the brown-out detector stops a battery node that could go on.</summary>
public sealed class BrownOutTooHigh() : Rule(new(
    "RL2015", Severity.Warning, "Brown-out level wastes the battery",
    "at most what controller and radio need; a setting of 2.7 V trips anywhere in 2.5 V to 2.9 V, one of 4.3 V in 4.1 V to 4.5 V (ATmega328/P data sheet 42735A, table 32-8)", "0.1")
{
    Silences = ["RL2004", "RL2202"],
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Board is not { } board || BatteryPath.OfController(node) is null || RadioRail.Battery(node) is not { } battery)
                continue;
            if (board.BrownOut is null)
            {
                if (board.Family.StartsWith("AVR", StringComparison.Ordinal))
                    yield return Waits(node, "board.brown-out");
                continue;
            }
            if (BatteryNeeds.OfBrownOut(node) is not { } demand)
                continue;
            var others = BatteryNeeds.OfParts(node).Select(part => part.Least).Append(battery.Low).Max();
            if (demand.Least <= others)
                continue;
            var setting = board.BrownOut.Value!.Value;
            var window = BrownOut.Window(setting);
            var fits = setting > BrownOut.Lowest && ClockLimit.Needs(board.ClockCorners, board.Clock?.Value ?? default) <= BrownOut.Lowest;
            var isWritten = ReferenceEquals(board.BrownOut.Place.Source, network.Source);
            yield return At(
                node, isWritten ? board.BrownOut.Place : node.BoardPlace.FirstLine,
                $"{demand.What} stops `{node.Label}` at {window}, up to {demand.Least - others} before anything else does at {others}",
                fits ? (FormattableString)$"program the detector to {BrownOut.Lowest}" : $"program a lower setting, with a clock that the supply still allows there",
                fits && isWritten ? [Offer($"Set {BrownOut.Lowest}", board.BrownOut.Place, $"{BrownOut.Lowest}")] : []);
        }
    }
}
