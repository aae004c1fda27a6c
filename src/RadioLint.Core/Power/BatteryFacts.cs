using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>Figures of a node's battery: its own where they are stated, else those of its cells.</summary>
public static class BatteryFacts
{
    /// <summary>The kind of its cells; null when not stated or not in our tables.</summary>
    public static CellKind? Kind(Battery battery) => battery.Cells is { } cells ? CellKinds.Find(cells.Value.Kind) : null;

    public static int Count(Battery battery) => battery.Cells?.Value.Count ?? 1;

    /// <summary>The most that it has inside, cells in series: near their end where that is known. Null when nobody says.</summary>
    public static Resistance? MostResistance(Battery battery)
    {
        if (battery.Resistance is { } stated)
            return stated.Value;
        var kind = Kind(battery);
        return (kind?.ResistanceEmpty ?? kind?.Resistance) is { } one ? new(one.Value.High.Milliohms * Count(battery)) : null;
    }

    /// <summary>At light load; cells in series share one charge.</summary>
    public static Charge? Capacity(Battery battery) => battery.Capacity?.Value ?? Kind(battery)?.Capacity?.Value;

    /// <summary>
    /// The share of its charge that lies below a voltage of one cell: straight lines between empty, middle and fresh. Null where the
    /// middle is not known, since a flat curve would make them wrong.
    /// </summary>
    public static Share? ShareBelow(CellKind kind, Voltage cell)
    {
        if (kind.Middle?.Value is not { } middle)
            return null;
        var (empty, fresh) = (kind.Empty.Value, kind.Fresh.Value);
        var millionths = cell <= middle
            ? 500_000 * (cell - empty).Millivolts / Math.Max(1, (middle - empty).Millivolts)
            : 500_000 + (500_000 * (cell - middle).Millivolts / Math.Max(1, (fresh - middle).Millivolts));
        return new(Math.Min(1_000_000, Math.Max(0, millionths)));
    }
}
