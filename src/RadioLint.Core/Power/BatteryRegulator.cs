using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>A regulator or converter whose own current comes from a node's battery.</summary>
/// <param name="Name">Its part number where that is known.</param>
/// <param name="Quiescent">From typical to most; null when nobody says.</param>
/// <param name="Place">Where it is named.</param>
public sealed record BatteryRegulator(string Name, Between<Current>? Quiescent, Place Place)
{
    /// <summary>Those of the supply chains, then those that the board is said to carry.</summary>
    public static IEnumerable<BatteryRegulator> Of(Node node)
    {
        var (radio, controller) = (BatteryPath.OfRadio(node), BatteryPath.OfController(node));
        var seen = new HashSet<Supply>();
        foreach (var stage in (radio?.Stages ?? ImmutableArray<Supply>.Empty).Concat(controller?.Stages ?? ImmutableArray<Supply>.Empty))
        {
            if (stage.From?.Value is not (SupplySource.Adapter or SupplySource.Regulator or SupplySource.Converter) || !seen.Add(stage))
                continue;
            var part = RadioRail.RegulatorOf(stage);
            yield return new(
                stage.Part?.Value ?? part?.Name ?? "the regulator", stage.Quiescent is { } own ? new(own.Value, own.Value) : Figures(part),
                (stage.Quiescent?.Place ?? stage.Part?.Place ?? stage.From.Place).FirstLine);
        }
        if (controller is null || node.Board is not { } board || BoardParts.IsRemoved(board, BoardParts.Regulator))
            yield break;
        foreach (var rail in new[] { board.Rail5V, board.Rail3V3 })
        {
            if (rail?.Part is { } named && Regulators.Find(named.Value) is { } known)
                yield return new(known.Name, Figures(known), named.Place);
        }
    }

    private static Between<Current>? Figures(Regulator? part) =>
        part?.Quiescent is { } typical ? new(typical.Value, (part.QuiescentMost ?? typical).Value) : null;
}
