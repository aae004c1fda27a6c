using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>What a node radiates against the isotropic radiator, and how it comes about.</summary>
/// <param name="Level">Power step + gain of the front end, at most its saturation, + antenna - cable; a lower bound when the antenna's gain is unknown.</param>
/// <param name="IsLowerBound">True when the antenna's gain is not stated and counts as 0 dBi.</param>
/// <param name="Steps">The arithmetic, for messages.</param>
public sealed record Eirp(PowerLevel Level, bool IsLowerBound, string Steps)
{
    /// <summary>EIRP = P + G - L (definition); null for a node whose power or part is unknown, or that has nothing to radiate with.</summary>
    public static Eirp? Of(Node node) => node.Power is { } power ? Of(node, power.Value) : null;

    /// <summary>The same at another power step.</summary>
    public static Eirp? Of(Node node, PowerLevel step)
    {
        if (node.Part?.Step(step) is null || node.Radio.Antenna?.Value.Kind?.Value is AntennaKind.None or AntennaKind.DummyLoad)
            return null;
        if (node.Radio.FrontEnd is not null && node.FrontEnd is null)
            return null;
        var conducted = node.FrontEnd?.Output(step) ?? step;
        var steps = node.FrontEnd is { } front
            ? $"{step} at the chip, {conducted} behind {front.Name}"
            : $"{step} at the chip";
        var gain = node.Radio.Antenna?.Value.Gain?.Value;
        var cable = node.Radio.Antenna?.Value.Cable?.Value ?? new Gain(0);
        steps += gain is null ? ", antenna unknown and counted as 0 dBi" : $", antenna {gain}i";
        if (cable.Centi != 0)
            steps += $", cable -{cable}";
        return new(conducted + (gain ?? new Gain(0)) - cable, gain is null, steps);
    }
}
