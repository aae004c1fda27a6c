using RadioLint.Hardware;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Model;

/// <summary>One line of the radio and the pin that carries it.</summary>
/// <param name="Signal">`ce`, `csn`, `irq`, `sck`, `mosi`, `miso`.</param>
/// <param name="Place">Where it is stated; the board's place for its customary pins.</param>
/// <param name="Written">The pin's name as written; the port for customary pins; null when tied.</param>
/// <param name="Pin">The pin; null when the board has none of that name.</param>
public sealed record Line(string Signal, Place Place, string? Written, BoardPin? Pin)
{
    /// <summary>What the manifest says of the line; null for the board's customary pins.</summary>
    public PinUse? Use { get; init; }

    public PinTie Tie => Use?.Tie ?? PinTie.None;

    public bool IsCustomary => Use is null;
}

/// <summary>A node's wiring: what is written, completed by the board's customary pins.</summary>
public sealed record Wiring(Place Place)
{
    public Line? Ce { get; init; }
    public Line? Csn { get; init; }
    public Line? Irq { get; init; }
    public Line? Sck { get; init; }
    public Line? Mosi { get; init; }
    public Line? Miso { get; init; }

    /// <summary>The SPI unit that `spi.unit` names, else the one whose pins these are; null when none fits.</summary>
    public SpiUnit? Unit { get; init; }

    /// <summary>The unit's set that these pins are, when they are one.</summary>
    public SpiSet? Set { get; init; }

    /// <summary>SCK: as written, else the fastest step of the controller up to 4 MHz; null when the clock is unknown.</summary>
    public Frequency? Clock { get; init; }

    public bool IsSoftware { get; init; }

    /// <summary>The lines that exist, in the order CE, CSN, SCK, MOSI, MISO, IRQ.</summary>
    public IEnumerable<Line> Lines()
    {
        foreach (var line in new[] { Ce, Csn, Sck, Mosi, Miso, Irq })
        {
            if (line is not null)
                yield return line;
        }
    }
}
