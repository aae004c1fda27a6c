using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Manifest.Keys;

/// <summary>The keys of `pins`, `spi`, `also-uses` and `shares-spi`.</summary>
public static class PinKeys
{
    private static readonly Key<string> PinKey = new("pin", Scalars.Text, "the pin as printed or as port") { IsRequired = true };
    private static readonly Key<Resistance> PullUp = new("pull-up", Quantities.Resistance, "resistor to the supply");
    private static readonly Key<Resistance> PullDown = new("pull-down", Quantities.Resistance, "resistor to ground");

    private static readonly Key<Trigger> TriggerKey = new(
        "trigger",
        Scalars.Words(
            "a trigger",
            ("falling edge", Trigger.FallingEdge), ("low level", Trigger.LowLevel), ("rising edge", Trigger.RisingEdge), ("any change", Trigger.AnyChange)),
        "when the interrupt fires");

    private static readonly Key<ImmutableArray<Stated<IrqSource>>> For = new(
        "for",
        new ListShape<IrqSource>(Scalars.Words("a source", ("received", IrqSource.Received), ("sent", IrqSource.Sent), ("gave up", IrqSource.GaveUp))),
        "what may pull the line low; all three unless stated");

    /// <summary>A pin's name, what the line is tied to, or a map with resistors and trigger.</summary>
    public static readonly Shape<PinUse> Use = new PinUseShape(new MapShape<PinUse>(
        "a pin",
        [PinKey, PullUp, PullDown, TriggerKey, For],
        s => new(s.Place, s.Written(PinKey))
        {
            PullUp = s.Written(PullUp),
            PullDown = s.Written(PullDown),
            Trigger = s.Written(TriggerKey),
            For = s.Written(For)?.Value,
        }));

    private static readonly Key<PinUse> Ce = new("ce", Use, "chip enable");
    private static readonly Key<PinUse> Csn = new("csn", Use, "chip select");
    private static readonly Key<PinUse> Irq = new("irq", Use, "interrupt");
    private static readonly Key<PinUse> Sck = new("sck", Use, "SPI clock; the board's unless stated");
    private static readonly Key<PinUse> Mosi = new("mosi", Use, "SPI data to the radio; the board's unless stated");
    private static readonly Key<PinUse> Miso = new("miso", Use, "SPI data from the radio; the board's unless stated");

    public static readonly MapShape<WrittenPins> Pins = new(
        "`pins`",
        [Ce, Csn, Irq, Sck, Mosi, Miso],
        s => new(s.Place)
        {
            Ce = s.Written(Ce)?.Value,
            Csn = s.Written(Csn)?.Value,
            Irq = s.Written(Irq)?.Value,
            Sck = s.Written(Sck)?.Value,
            Mosi = s.Written(Mosi)?.Value,
            Miso = s.Written(Miso)?.Value,
        });

    private static readonly Key<string> Unit = new("unit", Scalars.Text, "the SPI unit; the board's unless stated");
    private static readonly Key<int> Select = new("select", Quantities.Count("a number such as `0`"), "chip select number on Linux hosts");
    private static readonly Key<Frequency> Clock = new("clock", Quantities.Frequency, "SCK; the fastest step up to 4 MHz unless stated");
    private static readonly Key<bool> Software = new("software", Scalars.Truth, "SPI made by the program on any pins") { Default = "false" };

    private static readonly Key<LevelShifter> Shifter = new(
        "level-shifter",
        Scalars.Words("a level shifter", ("none", LevelShifter.None), ("transistor", LevelShifter.Transistor), ("gate", LevelShifter.Gate)),
        "what stands in the signal lines")
    { Default = "none" };

    public static readonly MapShape<SpiSetup> Spi = new(
        "`spi`",
        [Unit, Select, Clock, Software, Shifter],
        s => new(s.Written(Unit), s.Written(Select), s.Written(Clock), s.Get(Software), s.Get(Shifter)) { Place = s.Place });

    private static readonly Key<string> UseText = new("use", Scalars.Text, "what for") { IsRequired = true };
    private static readonly Key<bool> Direction = new("direction", Scalars.Words("a direction", ("input", true), ("output", false)), "as the controller sees it");

    private static readonly FormsShape<OtherUse> OtherUseShape = new(
        Scalars.Text.To(text => new OtherUse(null!, text, null)),
        new MapShape<OtherUse>("a use", [UseText, Direction], s => new(null!, s.Written(UseText)?.Value ?? "", s.Written(Direction))));

    public static readonly Shape<ImmutableArray<OtherUse>> AlsoUses = new NamedShape<OtherUse>("pins and units in use", OtherUseShape, Scalars.Text)
        .As(uses => ImmutableArray.CreateRange(uses.Select(use => use.Value.Value with { Name = use.Name })));

    private static readonly Key<string> NeighbourPart = new("part", Scalars.Text, "what it is") { IsRequired = true };
    private static readonly Key<PinUse> NeighbourSelect = new("select", Use, "its chip select");
    private static readonly Key<int> Mode = new("mode", Quantities.Count("an SPI mode, 0 to 3"), "its SPI mode; by part unless stated");
    private static readonly Key<string> Miso2 = new("miso", Scalars.Text, "`released`, `held`, `buffered`, or a series resistor such as `2.2 kohm`");
    private static readonly Key<Duration> LongestTransfer = new("longest-transfer", Quantities.Duration, "its longest transfer");

    public static readonly ListShape<BusNeighbour> SharesSpi = new(new MapShape<BusNeighbour>(
        "a device on the bus",
        [NeighbourPart, NeighbourSelect, Mode, Miso2, LongestTransfer],
        s => new(s.Place, s.Written(NeighbourPart), s.Written(NeighbourSelect)?.Value, s.Written(Mode), s.Written(Miso2), s.Written(LongestTransfer))));
}
