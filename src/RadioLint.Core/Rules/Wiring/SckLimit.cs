using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Units;

namespace RadioLint.Rules.Wiring;

/// <summary>How fast a node may clock its radio, by what is stated of the load on MISO; what is not stated counts as nothing.</summary>
/// <param name="Row">The data sheet's row for the next higher load, or its last.</param>
/// <param name="Setup">Of the controller's input; zero where the profile has none.</param>
internal sealed record SckLimit(Capacitance Load, SpiClockRow Row, Duration Setup)
{
    /// <summary>Null where the part has no such table.</summary>
    public static SckLimit? Of(Node node)
    {
        if (node.Part is not { SpiClock.IsEmpty: false } part)
            return null;
        var load = SpiTiming.Load(node.SharesSpi.Length, node.Wires?.Value ?? default);
        return new(load, part.SpiClockAt(load) ?? part.SpiClock[part.SpiClock.Length - 1], node.Wiring.Unit?.MisoSetup?.Value ?? default);
    }

    /// <summary>Above it half a period is too short for radio and controller.</summary>
    public Frequency Read => SpiTiming.FastestRead(Row.Delay, Setup);

    /// <summary>A clock that breaks neither: the controller's next step, else whole megahertz.</summary>
    public Frequency Inside(Node node)
    {
        var limit = Read < Row.UpTo ? Read : Row.UpTo;
        return SckSteps.UpTo(node, limit) ?? Frequency.FromMegahertz(limit.Hertz / 1_000_000);
    }
}
