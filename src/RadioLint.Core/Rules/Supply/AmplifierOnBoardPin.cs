using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Power;
using RadioLint.Units;

namespace RadioLint.Rules.Supply;

/// <summary>RL2006: a radio with a front end hangs on the board's 3.3 V pin, which cannot carry it.</summary>
public sealed class AmplifierOnBoardPin() : Rule(new(
    "RL2006", Severity.Error, "Amplified module on a board's 3.3 V pin",
    "130 mA peak (E01-ML01DP5 module specification 1.4) x 1.3 against the pin's planning limit: 50 mA behind a USB bridge, 150 mA behind a small regulator (FT232R, LP2985 data sheets as quoted)",
    "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Supply: { From.Value: SupplySource.BoardPin } supply, FrontEnd: { } front, Board: { } board }
                || RadioRail.PinName(supply) != "3V3" || PeakCurrent.OfRadio(node) is not { } radio)
            {
                continue;
            }
            var peak = radio + (board.Logic?.Value.Millivolts < 4_500 ? PeakCurrent.OfController(node) ?? new Current(0) : new Current(0));
            var needed = new Current(peak.Nanoamperes * 13 / 10);
            if (Limit(supply, board) is not { } limit)
            {
                // The best board of its kind is a bound: when even that is too weak, no fact is missing.
                if (board.Rails.IsEmpty || board.Rails.Max(rail => rail.Limit) >= needed)
                    yield return Waits(node, "board.rail-3v3");
                else
                    yield return Finding(node, supply, front, peak, needed, board.Rails.Max(rail => rail.Limit), "at best ");
            }
            else if (needed > limit)
            {
                yield return Finding(node, supply, front, peak, needed, limit, "");
            }
        }
    }

    private Finding Finding(Node node, Model.Supply supply, FrontEnd front, Current peak, Current needed, Current limit, string bound) => At(
        node, supply.Pin?.Place ?? supply.From!.Place,
        $"the 3.3 V pin of `{node.Label}` gives {bound}{limit}; with {front.Name} the peak is {peak}, {needed} with 30 % margin",
        $"give the module a regulator of its own for at least {(needed.Nanoamperes > 250_000_000 ? needed : Current.FromMilliamperes(250))}, fed from the board's input");

    private static Current? Limit(Model.Supply supply, Board board) =>
        supply.Limit?.Value ?? board.Rail3V3?.Limit?.Value
        ?? (board.Rail3V3?.Part is { } part ? Regulators.Find(part.Value)?.PlanningLimit.Value : null);
}
