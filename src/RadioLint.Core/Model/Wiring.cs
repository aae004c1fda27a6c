using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Model;

/// <summary>What a radio line is tied to instead of a pin.</summary>
public enum PinTie
{
    None,
    High,
    Low,
    FromSck,
}

/// <summary>When an interrupt input fires.</summary>
public enum Trigger
{
    FallingEdge,
    LowLevel,
    RisingEdge,
    AnyChange,
}

/// <summary>What may pull IRQ low.</summary>
public enum IrqSource
{
    Received,
    Sent,
    GaveUp,
}

/// <summary>One line of the radio as the manifest wires it.</summary>
/// <param name="Place">The whole value.</param>
/// <param name="Pin">The pin's name as written; null when the line is tied or the name did not read.</param>
public sealed record PinUse(Place Place, Stated<string>? Pin)
{
    public PinTie Tie { get; init; }
    public Stated<Resistance>? PullUp { get; init; }
    public Stated<Resistance>? PullDown { get; init; }
    public Stated<Trigger>? Trigger { get; init; }

    /// <summary>Sources left unmasked; all three unless written.</summary>
    public ImmutableArray<Stated<IrqSource>>? For { get; init; }
}

/// <summary>The six lines between microcontroller and radio; null where the manifest leaves one to the board.</summary>
public sealed record WrittenPins(Place Place)
{
    public PinUse? Ce { get; init; }
    public PinUse? Csn { get; init; }
    public PinUse? Irq { get; init; }
    public PinUse? Sck { get; init; }
    public PinUse? Mosi { get; init; }
    public PinUse? Miso { get; init; }

    /// <summary>Each written line with its manifest name, in the header's order.</summary>
    public IEnumerable<(string Signal, PinUse Use)> All()
    {
        if (Ce is not null)
            yield return ("ce", Ce);
        if (Csn is not null)
            yield return ("csn", Csn);
        if (Sck is not null)
            yield return ("sck", Sck);
        if (Mosi is not null)
            yield return ("mosi", Mosi);
        if (Miso is not null)
            yield return ("miso", Miso);
        if (Irq is not null)
            yield return ("irq", Irq);
    }
}

/// <summary>What stands between a 5 V controller and the radio's inputs.</summary>
public enum LevelShifter
{
    None,
    Transistor,
    Gate,
}

/// <summary>How the SPI is set up.</summary>
public sealed record SpiSetup(
    Stated<string>? Unit, Stated<int>? Select, Stated<Frequency>? Clock, Stated<bool>? Software, Stated<LevelShifter>? LevelShifter)
{
    public Place Place { get; init; }
}

/// <summary>A pin or a unit on the chip that something else uses.</summary>
/// <param name="Name">Pin or unit as written.</param>
/// <param name="IsInput">True or false when the direction is stated.</param>
public sealed record OtherUse(LocatedScalar Name, string Use, Stated<bool>? IsInput);

/// <summary>Another device on the radio's SPI lines.</summary>
public sealed record BusNeighbour(
    Place Place, Stated<string>? Part, PinUse? Select, Stated<int>? Mode, Stated<string>? Miso, Stated<Duration>? LongestTransfer);
