using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>What a link's path takes away, from its facts.</summary>
public static class PathEstimate
{
    /// <summary>
    /// The most, at the far end of the distance. Outdoors two rays over flat ground, free space where a height is not known, and everything that
    /// stands between. Indoors the worse of the model of whole buildings, which has the walls in it, and free space with each wall counted; floors in both.
    /// </summary>
    public static Gain Most(Setting setting, Length distance, Length? one, Length? other, ImmutableArray<Stated<Obstacle>> through)
    {
        var floors = PathLoss.Floors(setting, through.Where(each => IsFloor(each.Value)).Sum(each => each.Value.Count));
        var leaves = Sum(through, each => each.Depth is { } depth ? PathLoss.Vegetation(PathLoss.MidBand, depth) : null);
        var counted = Sum(through, each => WallLoss.Of(each.Kind)) + PathLoss.FreeSpace(PathLoss.MidBand, distance);
        if (setting is Setting.Open)
        {
            var ground = one is { } first && other is { } second ? PathLoss.TwoRay(PathLoss.MidBand, distance, first, second) : new Gain(0);
            var open = PathLoss.FreeSpace(PathLoss.MidBand, distance);
            return counted + PathLoss.Larger(ground - open, new Gain(0)) + floors + leaves;
        }
        var whole = PathLoss.Indoors(PathLoss.MidBand, distance, PathLoss.PerDecade(setting));
        return PathLoss.Larger(whole, counted) + floors + leaves;
    }

    /// <summary>The least, at the near end: free space and the walls. Leaves fall, and the reflections of a building can add as well as take.</summary>
    public static Gain Least(Length distance, ImmutableArray<Stated<Obstacle>> through) =>
        PathLoss.FreeSpace(PathLoss.MidBand, distance) + Sum(through, each => WallLoss.Of(each.Kind));

    private static bool IsFloor(Obstacle each) => each.Kind is "floor" or "floors";

    private static Gain Sum(ImmutableArray<Stated<Obstacle>> through, Func<Obstacle, Gain?> loss)
    {
        var sum = 0L;
        foreach (var each in through)
            sum += (loss(each.Value)?.Centi ?? 0) * (long)Math.Max(1, Math.Min(1_000, each.Value.Count));
        return new((int)Math.Min(sum, 10_000_000));
    }
}
