using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>What some part of a node asks of the battery.</summary>
/// <param name="What">The part, as a message calls it.</param>
/// <param name="Least">The battery's voltage below which it stops, dropout on the way included.</param>
public sealed record BatteryDemand(string What, Voltage Least);

/// <summary>The voltages below which a battery node stops working.</summary>
public static class BatteryNeeds
{
    /// <summary>
    /// The radio's and the controller's own demands, that of the brown-out detector left out. A linear regulator that gets too little
    /// still passes its input less its dropout on; behind a converter nothing is known.
    /// </summary>
    public static IEnumerable<BatteryDemand> OfParts(Node node)
    {
        if (BatteryPath.OfRadio(node) is { HasConverter: false } radio && node.Part is { } part)
        {
            var least = part.Supply.Range.Value.Low;
            if (node.FrontEnd is { Supply.Value.Low: var amplified } && amplified > least)
                least = amplified;
            yield return new(Behind(node.FrontEnd is null ? "the radio" : "the amplified radio", radio), least + radio.Dropout);
        }
        if (BatteryPath.OfController(node) is { HasConverter: false } path && OfController(node) is { } controller)
            yield return controller with { What = Behind(controller.What, path), Least = controller.Least + path.Dropout };
    }

    /// <summary>The brown-out detector's; null when it is off, not stated, or behind a converter.</summary>
    public static BatteryDemand? OfBrownOut(Node node) =>
        node.Board?.BrownOut?.Value is { } level && BatteryPath.OfController(node) is { HasConverter: false } path
            ? new(Behind($"the brown-out detector at {level}", path), level + path.Dropout)
            : null;

    /// <summary>All of them, the highest first.</summary>
    public static IEnumerable<BatteryDemand> Of(Node node)
    {
        var all = OfParts(node).ToList();
        if (OfBrownOut(node) is { } brownOut)
            all.Add(brownOut);
        return all.OrderByDescending(demand => demand.Least);
    }

    private static BatteryDemand? OfController(Node node)
    {
        if (node.Board is not { } board)
            return null;
        if (board.Clock?.Value is { } clock && ClockLimit.Needs(board.ClockCorners, clock) is { } least)
            return new($"{board.Chip} at {clock}", least);
        return board.SupplyRange is { } range ? new(board.Chip, range.Value.Low) : null;
    }

    private static string Behind(string what, BatteryPath path) => path.Dropout.Millivolts == 0 ? what : $"{what} behind {path.Dropout} of dropout";
}
