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
    public static Current? OfRadio(Node node) =>
        Sending(node) is { } sending && Receiving(node) is { } receiving ? sending > receiving ? sending : receiving : null;

    /// <summary>While it sends, front end included. Null while part, power or front end are not known.</summary>
    public static Current? Sending(Node node) =>
        node.Part is { } part && node.Power is { } power && part.Step(power.Value) is { } step && (node.Radio.FrontEnd is null || node.FrontEnd is not null)
            ? node.FrontEnd?.SendingDraw(step.Draws) ?? step.Draws
            : null;

    /// <summary>While it listens, front end included. Null while part, rate or front end are not known.</summary>
    public static Current? Receiving(Node node) =>
        node.Part is { } part && node.Air.ChosenRate is { } rate && part.Rate(rate) is { } at && (node.Radio.FrontEnd is null || node.FrontEnd is not null)
            ? node.FrontEnd?.ListeningDraw(at.Receive.Value) ?? at.Receive.Value
            : null;

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
    private static bool IsFaster(string mode, Frequency? clock) => clock is not null && ModeClock(mode) > clock;

    /// <summary>The clock in a mode's name, in whole megahertz: `active 16 MHz`; null where it names none.</summary>
    internal static Frequency? ModeClock(string mode)
    {
        var unit = mode.IndexOf(" MHz", StringComparison.Ordinal);
        if (unit <= 0)
            return null;
        var start = mode.LastIndexOf(' ', unit - 1) + 1;
        return long.TryParse(mode.Substring(start, unit - start), NumberStyles.None, CultureInfo.InvariantCulture, out var megahertz) ? Frequency.FromMegahertz(megahertz) : null;
    }
}
