using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Manifest.Keys;

/// <summary>A board as named or written: resolved against the shipped and the manifest's own profiles later.</summary>
/// <param name="Name">Set in the short form.</param>
/// <param name="Own">Set in the long form.</param>
public sealed record BoardChoice(Stated<string>? Name, Settings? Own);

/// <summary>The keys of a board profile. Shipped profiles are read by the same table as the user's.</summary>
public static class BoardKeys
{
    // Keys that a user's profile commonly has.
    public static readonly Key<string> BasedOn = new("based-on", Scalars.Reference, "the profile that this one starts from");
    public static readonly Key<ImmutableArray<Named<string>>> Reserved = new("reserved", new NamedShape<string>("pins", Scalars.Text, Scalars.Text), "pins that the board itself uses");
    public static readonly Key<Frequency> Clock = new("clock", Quantities.Frequency, "the controller's clock");
    public static readonly Key<Voltage> Logic = new("logic", Quantities.Voltage, "voltage of its signals");

    public static readonly Key<Voltage?> BrownOut = new(
        "brown-out", Scalars.Words<Voltage?>("a setting", ("none", null)).Or(Quantities.Voltage.To(v => (Voltage?)v)).Named("a voltage such as `1.8 V`, or none"),
        "the brown-out detector's setting");

    private static readonly Key<string> RailPart3 = new("part", Scalars.Text, "regulator by part number");
    private static readonly Key<Current> RailLimit3 = new("limit", Quantities.Current, "what it can give to others");
    private static readonly Key<string> RailPart5 = new("part", Scalars.Text, "regulator by part number");
    private static readonly Key<Current> RailLimit5 = new("limit", Quantities.Current, "what it can give to others");
    public static readonly Key<BoardRail> Rail3V3 = new("rail-3v3", new MapShape<BoardRail>("a rail", [RailPart3, RailLimit3], s => new(s.Written(RailPart3), s.Written(RailLimit3))), "the board's 3.3 V rail");
    public static readonly Key<BoardRail> Rail5V = new("rail-5v", new MapShape<BoardRail>("a rail", [RailPart5, RailLimit5], s => new(s.Written(RailPart5), s.Written(RailLimit5))), "the board's 5 V rail");
    public static readonly Key<ImmutableArray<Named<Current>>> AlwaysOn = new("always-on", new NamedShape<Current>("parts", Quantities.Current, Scalars.Text), "parts that always draw current");
    public static readonly Key<ImmutableArray<Stated<string>>> Removed = new("removed", new ListShape<string>(Scalars.Text), "parts taken off the board");

    // Keys of a whole profile.
    public static readonly Key<string> Board = new("board", Scalars.Text, "its name");
    public static readonly Key<string> Chip = new("chip", Scalars.Text, "the controller");
    public static readonly Key<string> Family = new("family", Scalars.Text, "its kind");
    public static readonly Key<ImmutableArray<Named<BoardPin>>> Pins = new("pins", new NamedShape<BoardPin>("pins", BoardPinKeys.Shape, Scalars.Text), "the pins by port");
    public static readonly Key<ImmutableArray<Named<SpiUnit>>> Spi = new("spi", new NamedShape<SpiUnit>("SPI units", SpiUnitKeys.Shape, Scalars.Text), "the SPI units");
    public static readonly Key<CanonicalWiring?> Wiring = new("wiring", SpiUnitKeys.WiringShape, "the customary wiring");
    public static readonly Key<IrqAbility> Irq = new("irq", ChipKeys.IrqShape, "what pins can interrupt");
    public static readonly Key<ImmutableArray<Stated<Strap>>> Straps = new("straps", new ListShape<Strap>(ChipKeys.StrapShape), "pins read at reset");
    public static readonly Key<Settings> Supply = new("supply", ChipKeys.SupplyShape, "supply of the chip");
    public static readonly Key<Settings> Levels = new("levels", ChipKeys.LevelsShape, "logic levels");
    public static readonly Key<Settings> ClockLimit = new("clock-limit", ChipKeys.ClockLimitShape, "highest clock, over supply");
    public static readonly Key<Settings> PinCurrent = new("pin-current", ChipKeys.PinCurrentShape, "current of pins");
    public static readonly Key<ImmutableArray<Stated<RailCase>>> Rails = new("rails", new ListShape<RailCase>(ChipKeys.RailShape), "how the 3.3 V pin may be fed");
    public static readonly Key<ImmutableArray<Stated<Draw>>> Currents = new("currents", new ListShape<Draw>(ChipKeys.DrawShape), "what the chip draws");
    public static readonly Key<ImmutableArray<Stated<string>>> Traps = new("traps", new ListShape<string>(Scalars.Text), "what people stumble over");

    public static readonly Key<ImmutableArray<PadPair>> PadRule = new("spi-pad-rule", SpiUnitKeys.PadRuleShape, "which pads of a serial unit go together");

    private static readonly Key[] Notes =
    [
        Remark.Key("covers", "other chips that it fits"), Remark.Key("package", "the package assumed"), Remark.Key("clocks", "usual clocks"), Remark.Key("voltages", "usual voltages"),
        Remark.Key("silk", "conventions of printed labels"), Remark.Key("sources", "documents"), Remark.Key("pins-source", "where the pins come from"),
        Remark.Key("usb-pins", "USB pins"), Remark.Key("reset-pulls", "pulls at reset"),
    ];

    public static readonly MapShape<Settings> Profile = new(
        "a board profile",
        [
            BasedOn, Reserved, Clock, Logic, BrownOut, Rail3V3, Rail5V, AlwaysOn, Removed, Board, Chip, Family, Pins, Spi, Wiring, Irq, Straps, Supply, Levels,
            ClockLimit, PinCurrent, Rails, Currents, Traps, PadRule, .. Notes,
        ],
        s => s);

    /// <summary>An entry of `boards`.</summary>
    public static readonly Shape<BoardChoice> Own = Profile.As(settings => new BoardChoice(null, settings));

    /// <summary>A node's `board`.</summary>
    public static readonly FormsShape<BoardChoice> Choice = new(Scalars.Reference.To(name => new BoardChoice(new(name, default), null)), Own);
}
