using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>What a controller draws awake and asleep, by the modes of its board's profile; null where the profile has no such mode.</summary>
public static class ControllerCurrent
{
    // Modes by the words that name them, the one that keeps a timer running first.
    private static readonly string[] WithTimer =
        ["power-down, watchdog on", "standby, RTC on", "standby, RTC 1", "deep sleep", "System ON idle", "power-down", "stop", "DORMANT"];

    private static readonly string[] WithoutTimer = ["power-down, watchdog off", "power-down", "deep sleep", "System OFF", "standby", "stop", "DORMANT"];

    private static readonly string[] Running = ["active", "run", "CPU", "modem sleep", "board"];

    /// <summary>
    /// From typical to most at the board's clock. A mode of a faster clock bounds from above and, shared down by the clock, from below;
    /// without one the fastest is shared up.
    /// </summary>
    public static Between<Current>? Awake(Node node)
    {
        if (node.Board is not { } board)
            return null;
        var modes = board.Draws.Where(IsRunning).ToList();
        var clock = board.Clock?.Value;
        var nearest = modes.Select(mode => PeakCurrent.ModeClock(mode.Mode)).Where(at => at is not null && (clock is null || at >= clock)).Min()
            ?? modes.Select(mode => PeakCurrent.ModeClock(mode.Mode)).Max();
        Current? low = null;
        Current? high = null;
        foreach (var mode in modes.Where(mode => PeakCurrent.ModeClock(mode.Mode) == nearest))
        {
            if (Figures(mode) is not { } figures)
                continue;
            var typical = Shared(figures.Low, clock, nearest);
            var most = clock > nearest ? Shared(figures.High, clock, nearest) : figures.High;
            low = low is null || typical < low ? typical : low;
            high = high is null || most > high ? most : high;
        }
        if (low is null || high is null)
            return null;
        // Its own Wi-Fi counts when it is used, and may count while nobody says.
        if (node.Wifi is { Value: null } || board.Draws.FirstOrDefault(mode => mode.Mode.StartsWith("Wi-Fi receive", StringComparison.Ordinal))?.Typical?.Value is not { } listening)
            return new(low.Value, high.Value);
        return new(node.Wifi is null ? low.Value : listening, listening > high ? listening : high.Value);
    }

    /// <summary>From typical to most; with a timer that runs on unless a pin wakes it.</summary>
    public static Between<Current>? Asleep(Node node)
    {
        if (node.Board is not { } board)
            return null;
        foreach (var words in node.Sleep?.Wakes?.Value.Kind is WakeKind.ByPin ? WithoutTimer : WithTimer)
        {
            if (board.Draws.FirstOrDefault(mode => mode.Mode.Contains(words)) is { } found && Figures(found) is { } figures)
                return figures;
        }
        return null;
    }

    private static bool IsRunning(Draw mode) =>
        Running.Any(word => mode.Mode.StartsWith(word, StringComparison.Ordinal)) && !mode.Mode.Contains("own radio") && (!mode.Mode.Contains("idle") || mode.Mode == "board idle");

    private static Between<Current>? Figures(Draw mode) =>
        (mode.Typical ?? mode.Max)?.Value is { } typical ? new(typical, (mode.Max ?? mode.Typical)!.Value) : null;

    private static Current Shared(Current draws, Frequency? clock, Frequency? at) =>
        clock is { } wanted && at is { Hertz: > 0 } measured ? new((long)((decimal)draws.Nanoamperes * wanted.Hertz / measured.Hertz)) : draws;
}
