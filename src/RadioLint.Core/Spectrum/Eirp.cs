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

    /// <summary>The definition itself: what goes into the cable, less the cable's loss, plus the antenna's gain.</summary>
    public static PowerLevel Of(PowerLevel conducted, Gain antenna, Gain cable) => conducted + antenna - cable;

    /// <summary>The most that may go into the cable so that a limit is kept.</summary>
    public static PowerLevel MostConducted(PowerLevel limit, Gain antenna, Gain cable) => limit - antenna + cable;

    /// <summary>The same limit for a node; an antenna whose gain is not stated counts as 0 dBi.</summary>
    public static PowerLevel MostConducted(Node node, PowerLevel limit) => MostConducted(limit, AntennaOf(node) ?? new Gain(0), CableOf(node));

    /// <summary>
    /// What a pulsed signal is on average over a window, as the law counts field strength: the peak and 20 log of the share of time (47 CFR 15.35 (c),
    /// from memory; REG-05 of the worked examples). Sent for longer than the window, it is the peak.
    /// </summary>
    public static PowerLevel Average(PowerLevel peak, Duration sent, Duration window) =>
        peak + Decibels.OfFields(Math.Min(1, (double)sent.Nanoseconds / window.Nanoseconds));

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
        var gain = AntennaOf(node);
        var cable = CableOf(node);
        steps += gain is null ? ", antenna unknown and counted as 0 dBi" : $", antenna {gain}i";
        if (cable.Centi != 0)
            steps += $", cable -{cable}";
        return new(Of(conducted, gain ?? new Gain(0), cable), gain is null, steps);
    }

    private static Gain? AntennaOf(Node node) => node.Radio.Antenna?.Value.Gain?.Value;

    private static Gain CableOf(Node node) => node.Radio.Antenna?.Value.Cable?.Value ?? new Gain(0);
}
