using System.Globalization;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>The most that parts of a node draw at once.</summary>
public static class PeakCurrent
{
    /// <summary>
    /// The radio's: sending at its step, front end included, or receiving, whichever is larger (nRF24L01+ Product Specification 1.0,
    /// Table 4; modules by their own sheets). Null while part, power, rate or front end are not known.
    /// </summary>
    public static Current? OfRadio(Node node)
    {
        if (node.Part is not { } part || node.Power is not { } power || part.Step(power.Value) is not { } step || node.Air.ChosenRate is not { } rate
            || part.Rate(rate) is not { } at || (node.Radio.FrontEnd is not null && node.FrontEnd is null))
        {
            return null;
        }
        var sending = node.FrontEnd?.SendingDraw(step.Draws) ?? step.Draws;
        var receiving = node.FrontEnd?.ListeningDraw(at.Receive.Value) ?? at.Receive.Value;
        return sending > receiving ? sending : receiving;
    }

    /// <summary>
    /// The controller's: what its maker asks of the supply where the chip has Wi-Fi and `wifi` is not `none`, else the highest current
    /// of its table up to the board's clock. Null when the profile has no figure.
    /// </summary>
    public static Current? OfController(Node node)
    {
        if (node.Board is not { } board)
            return null;
        var usesWifi = node.Wifi is not { Value: null };
        if (usesWifi && board.Needs is { } needs)
            return needs.Value;
        Current? most = null;
        foreach (var draw in board.Draws)
        {
            if ((!usesWifi && draw.Mode.Contains("Wi-Fi")) || IsFaster(draw.Mode, board.Clock?.Value))
                continue;
            if ((draw.Max ?? draw.Typical)?.Value is { } current && (most is null || current > most))
                most = current;
        }
        return most;
    }

    // `active 16 MHz` does not count on a board that runs at 8 MHz.
    private static bool IsFaster(string mode, Frequency? clock)
    {
        var unit = mode.IndexOf(" MHz", StringComparison.Ordinal);
        if (unit < 0 || clock is null)
            return false;
        var start = mode.LastIndexOf(' ', unit - 1) + 1;
        return long.TryParse(mode.Substring(start, unit - start), NumberStyles.None, CultureInfo.InvariantCulture, out var megahertz)
            && Frequency.FromMegahertz(megahertz) > clock.Value;
    }
}
