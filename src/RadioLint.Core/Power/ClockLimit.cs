using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>The highest clock over the supply: straight lines between corners, as ATmega328/P data sheet 42735A, figure 32-1, draws them.</summary>
public static class ClockLimit
{
    /// <summary>The highest clock at a supply: 0 below the lowest corner, that of the highest corner above it. Null without corners.</summary>
    public static Frequency? At(ImmutableArray<ClockCorner> corners, Voltage supply)
    {
        if (corners.IsEmpty)
            return null;
        if (supply < corners[0].Supply)
            return new(0);
        for (var i = 1; i < corners.Length; i++)
        {
            var (low, high) = (corners[i - 1], corners[i]);
            if (supply <= high.Supply)
                return new(low.Clock.Hertz + ((high.Clock.Hertz - low.Clock.Hertz) * (supply - low.Supply).Millivolts / Span(low, high)));
        }
        return corners[corners.Length - 1].Clock;
    }

    /// <summary>The least supply for a clock, up to the next millivolt. Null without corners and for a clock that no supply allows.</summary>
    public static Voltage? Needs(ImmutableArray<ClockCorner> corners, Frequency clock)
    {
        if (corners.IsEmpty)
            return null;
        if (clock <= corners[0].Clock)
            return corners[0].Supply;
        for (var i = 1; i < corners.Length; i++)
        {
            var (low, high) = (corners[i - 1], corners[i]);
            if (clock > high.Clock)
                continue;
            var rise = high.Clock.Hertz - low.Clock.Hertz;
            return new(low.Supply.Millivolts + ((((clock.Hertz - low.Clock.Hertz) * Span(low, high)) + rise - 1) / rise));
        }
        return null;
    }

    // Corners of a user's own profile may stand on one voltage.
    private static long Span(ClockCorner low, ClockCorner high) => Math.Max(1, (high.Supply - low.Supply).Millivolts);
}
