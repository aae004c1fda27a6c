using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Rules.Wiring;

/// <summary>The clocks that a node's SPI unit can make.</summary>
internal static class SckSteps
{
    /// <summary>The fastest up to a limit; null where the profile names no steps, where all are faster, and where software makes the clock.</summary>
    public static Frequency? UpTo(Node node, Frequency limit)
    {
        if (node.Wiring.IsSoftware || node.Board?.Clock?.Value is not { } clock || node.Wiring.Unit is not { Dividers.IsEmpty: false } unit)
            return null;
        foreach (var divider in unit.Dividers.OrderBy(divider => divider))
        {
            if (clock.Hertz <= limit.Hertz * divider)
                return new(clock.Hertz / divider);
        }
        return null;
    }
}
