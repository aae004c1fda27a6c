namespace RadioLint.Hardware;

/// <summary>Which pins an SPI unit can use for which signal.</summary>
public static class SpiFit
{
    /// <summary>The unit's set that these pins are, or null.</summary>
    public static SpiSet? Set(SpiUnit unit, BoardPin sck, BoardPin mosi, BoardPin miso) =>
        unit.Sets.FirstOrDefault(set => set.Sck == sck.Port && set.Mosi == mosi.Port && set.Miso == miso.Port);

    /// <summary>True when one unit can use the three pins together.</summary>
    public static bool Fits(Board board, SpiUnit unit, BoardPin sck, BoardPin mosi, BoardPin miso) => unit.Kind switch
    {
        SpiKind.Reserved => false,
        SpiKind.Options or SpiKind.Programmable or SpiKind.Matrix =>
            Set(unit, sck, mosi, miso) is not null || (CanBe(unit, "sck", sck) && CanBe(unit, "mosi", mosi) && CanBe(unit, "miso", miso)),
        SpiKind.Pads => Set(unit, sck, mosi, miso) is not null || FitsPads(board, unit, sck, mosi, miso),
        _ => Set(unit, sck, mosi, miso) is not null,
    };

    /// <summary>True when a unit can use a pin for one signal, whatever the others.</summary>
    public static bool CanBe(SpiUnit unit, string signal, BoardPin pin) => unit.Kind switch
    {
        SpiKind.Reserved => false,
        SpiKind.Matrix => pin.Can.HasFlag(signal == "miso" ? PinAbilities.In : PinAbilities.Out),
        SpiKind.Pads => unit.Pads.Any(pad => pad.Contains(pin.Port, StringComparer.Ordinal)) || InSet(unit, signal, pin),
        _ => InSet(unit, signal, pin) || (unit.Options is { } options && (signal switch
        {
            "sck" => options.Sck,
            "mosi" => options.Mosi,
            _ => options.Miso,
        }).Contains(pin.Port, StringComparer.Ordinal)),
    };

    private static bool InSet(SpiUnit unit, string signal, BoardPin pin) => unit.Sets.Any(set => pin.Port == signal switch
    {
        "sck" => set.Sck,
        "mosi" => set.Mosi,
        _ => set.Miso,
    });

    // Data out and clock by one of the permitted pairs; data in on any pad that is left.
    private static bool FitsPads(Board board, SpiUnit unit, BoardPin sck, BoardPin mosi, BoardPin miso)
    {
        var (clock, output, input) = (PadOf(unit, sck), PadOf(unit, mosi), PadOf(unit, miso));
        return clock >= 0 && output >= 0 && input >= 0 && input != clock && input != output
            && board.PadPairs.Any(pair => pair.Mosi == output && pair.Sck == clock);
    }

    private static int PadOf(SpiUnit unit, BoardPin pin)
    {
        for (var pad = 0; pad < unit.Pads.Length; pad++)
        {
            if (unit.Pads[pad].Contains(pin.Port, StringComparer.Ordinal))
                return pad;
        }
        return -1;
    }
}
