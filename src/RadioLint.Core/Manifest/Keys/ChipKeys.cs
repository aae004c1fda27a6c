using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Rules.Hygiene;
using RadioLint.Units;

namespace RadioLint.Manifest.Keys;

/// <summary>The keys of a board profile that speak of its chip: supply, levels, interrupts, straps, currents.</summary>
internal static class ChipKeys
{
    public static readonly ScalarShape<Level> LevelShape = new(
        "a level such as `0.6 x supply` or `1.9 V`",
        (LocatedScalar scalar, out Level value) =>
        {
            var times = scalar.Text.IndexOf(" x supply", StringComparison.Ordinal);
            if (times > 0 && Quantity.TryNumber(scalar.Text.Substring(0, times), out var share) && Quantity.TryScale(share, 1_000_000, out var millionths))
            {
                value = new(new Share(millionths), null);
                return null;
            }
            var fault = Quantities.Voltage.Read(scalar, out var voltage);
            value = new(null, voltage);
            return fault is null ? null : WrongType.At(scalar.Place, $"`{scalar.Text}`", "a level such as `0.6 x supply` or `1.9 V`");
        },
        new SchemaForm.Scalar("^[0-9]+([.][0-9]+)? (x supply|V|mV)$"));

    public static readonly Key<Fact<Between<Voltage>>> SupplyRange = new("range", new FactShape<Between<Voltage>>(Quantities.Voltages), "operating range");
    public static readonly Key<Fact<Voltage>> SupplyAbsolute = new("absolute", new FactShape<Voltage>(Quantities.Voltage), "absolute maximum");
    public static readonly Key<Fact<Current>> SupplyNeeds = new("needs", new FactShape<Current>(Quantities.Current), "least current of its supply");

    public static readonly Key<Fact<string>> Tolerates5V = new(
        "tolerates-5v", new FactShape<string>(Scalars.Words("a word", ("no", "no"), ("with supply", "with supply"), ("per pin", "per pin"))), "whether its inputs stand 5 V");

    public static readonly MapShape<Settings> SupplyShape = new(
        "supply of the chip",
        [SupplyRange, SupplyAbsolute, SupplyNeeds, Tolerates5V, Remark.Key("rail", "which rail its pins follow"), Remark.Key("header-pins", "supply pins of the header")],
        s => s);

    public static readonly Key<Fact<Level>> High = new("high", new FactShape<Level>(LevelShape), "least input level that counts as high");
    private static readonly Key<Fact<Level>> Low = new("low", new FactShape<Level>(LevelShape), "most input level that counts as low");

    public static readonly MapShape<Settings> LevelsShape = new(
        "logic levels",
        [High, Low, Remark.Key("pull", "internal pull"), Remark.Key("output-high", "output level"), Remark.Key("output-low", "output level"), Remark.Key("note", "remark")],
        s => s);

    private static readonly Key<Voltage> CornerSupply = new("supply", Quantities.Voltage, "supply") { IsRequired = true };
    private static readonly Key<Frequency> CornerClock = new("clock", Quantities.Frequency, "clock") { IsRequired = true };

    public static readonly Key<ImmutableArray<Stated<ClockCorner>>> Corners = new(
        "at",
        new ListShape<ClockCorner>(new MapShape<ClockCorner>(
            "a corner", [CornerSupply, CornerClock], s => new(s.Written(CornerSupply)?.Value ?? default, s.Written(CornerClock)?.Value ?? default))),
        "corners; straight lines between");

    public static readonly MapShape<Settings> ClockLimitShape = new(
        "highest clock",
        [Corners, Remark.Key("is", "highest clock"), Remark.Key("source", "document"), Remark.Key("where", "table"), Remark.Key("basis", "how it is known"), Remark.Key("note", "remark"), Remark.Key("when", "condition")],
        s => s);

    public static readonly Key<Fact<Current>> PinAbsolute = new("absolute", new FactShape<Current>(Quantities.Current), "absolute maximum of one pin");

    public static readonly MapShape<Settings> PinCurrentShape = new(
        "current of pins",
        [
            PinAbsolute, Remark.Key("guaranteed", "current at which the level holds"), Remark.Key("high-drive", "with strong drive"), Remark.Key("group", "of a group"),
            Remark.Key("small-group", "of a small group"), Remark.Key("supply-pins", "of supply pins"), Remark.Key("total", "of all"), Remark.Key("note", "remark"),
        ],
        s => s);

    private static readonly Key<ImmutableArray<Stated<string>>> FallingEdge = new("falling-edge", new ListShape<string>(Scalars.Text), "pins with an edge interrupt");
    private static readonly Key<ImmutableArray<Stated<string>>> PinChange = new("pin-change", new ListShape<string>(Scalars.Text), "pins with a pin-change interrupt only");
    private static readonly Key<ImmutableArray<Stated<string>>> Preferred = new("preferred", new ListShape<string>(Scalars.Text), "pins to prefer");
    private static readonly Key<Fact<string>> Sharing = new("sharing", new FactShape<string>(Scalars.Text), "which pins share a line");
    private static readonly Key<Fact<string>> Asleep = new("asleep", new FactShape<string>(Scalars.Text), "what wakes");

    public static readonly MapShape<IrqAbility> IrqShape = new(
        "interrupts",
        [
            FallingEdge, PinChange, Preferred, Sharing, Asleep, Remark.Key("detail", "names"), Remark.Key("not-brought-out", "pins without a terminal"),
            Remark.Key("text", "in words"), Remark.Key("pin-change-text", "in words"), Remark.Key("channels", "how many"),
        ],
        s => new(
            BoardPinKeys.Texts(s.Written(FallingEdge)), BoardPinKeys.Texts(s.Written(PinChange)), BoardPinKeys.Texts(s.Written(Preferred)),
            s.Written(Sharing)?.Value.Value, s.Written(Asleep)?.Value.Value));

    private static readonly Key<string> StrapPin = new("pin", Scalars.Text, "the pin") { IsRequired = true };
    private static readonly Key<string> StrapNeeds = new("needs", Scalars.Text, "level that it needs");
    private static readonly Key<string> StrapPull = new("pull", Scalars.Text, "its own pull");
    private static readonly Key<StrapEffect> StrapCsn = Effect("csn");
    private static readonly Key<StrapEffect> StrapCe = Effect("ce");
    private static readonly Key<StrapEffect> StrapIrq = Effect("irq");
    private static readonly Key<StrapEffect> StrapMiso = Effect("miso");
    private static readonly Key<string> StrapSource = new("source", Scalars.Text, "document");
    private static readonly Key<string> StrapWhere = new("where", Scalars.Text, "table");

    public static readonly MapShape<Strap> StrapShape = new(
        "a strap",
        [
            StrapPin, StrapNeeds, StrapPull, StrapCsn, StrapCe, StrapIrq, StrapMiso, StrapSource, StrapWhere, Remark.Key("label", "as printed"),
            Remark.Key("function", "what it decides"), Remark.Key("sampled", "when it is read"), Remark.Key("basis", "how it is known"), Remark.Key("note", "remark"),
        ],
        s =>
        {
            var ok = new StrapEffect("ok", "");
            return new(
                s.Written(StrapPin)?.Value ?? "", s.Written(StrapNeeds)?.Value ?? "", s.Written(StrapPull)?.Value, s.Written(StrapCsn)?.Value ?? ok,
                s.Written(StrapCe)?.Value ?? ok, s.Written(StrapIrq)?.Value ?? ok, s.Written(StrapMiso)?.Value,
                string.Join(", ", new[] { s.Written(StrapSource)?.Value, s.Written(StrapWhere)?.Value }.Where(part => part is not null)));
        });

    private static readonly Key<string> RailBoards = new("boards", Scalars.Text, "on which boards");
    private static readonly Key<string> RailPart = new("part", Scalars.Text, "regulator");
    private static readonly Key<Current> RailLimit = new("limit", Quantities.Current, "planning limit") { IsRequired = true };
    private static readonly Key<string> RailSource = new("source", Scalars.Text, "document");

    public static readonly MapShape<RailCase> RailShape = new(
        "a rail", [RailBoards, RailPart, RailLimit, RailSource, Remark.Key("basis", "how it is known"), Remark.Key("note", "remark")],
        s => new(s.Written(RailBoards)?.Value ?? "", s.Written(RailPart)?.Value, s.Written(RailLimit)?.Value ?? default, s.Written(RailSource)?.Value ?? ""));

    private static readonly Key<string> DrawMode = new("mode", Scalars.Text, "the mode") { IsRequired = true };
    private static readonly Key<Fact<Current>> DrawTypical = new("typical", new FactShape<Current>(Quantities.Current), "typical current");
    private static readonly Key<Fact<Current>> DrawMax = new("max", new FactShape<Current>(Quantities.Current), "maximum current");

    public static readonly MapShape<Draw> DrawShape = new(
        "a current", [DrawMode, DrawTypical, DrawMax],
        s => new(s.Written(DrawMode)?.Value ?? "", s.Written(DrawTypical)?.Value, s.Written(DrawMax)?.Value));

    private static Key<StrapEffect> Effect(string line)
    {
        var verdict = new Key<string>("verdict", Scalars.Words("a verdict", ("ok", "ok"), ("warn", "warn"), ("error", "error"), ("avoid", "avoid")), "what happens") { IsRequired = true };
        var text = new Key<string>("text", Scalars.Text, "why");
        return new(
            line, new MapShape<StrapEffect>("an effect", [verdict, text], s => new(s.Written(verdict)?.Value ?? "ok", s.Written(text)?.Value ?? "")), $"with the radio's {line}");
    }
}
