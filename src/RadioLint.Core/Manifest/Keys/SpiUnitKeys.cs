using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Units;

namespace RadioLint.Manifest.Keys;

/// <summary>The keys of one SPI unit in a board profile, and of the customary wiring.</summary>
internal static class SpiUnitKeys
{
    private static readonly Key<string> Name = new("name", Scalars.Text, "full name");
    private static readonly Key<ImmutableArray<Stated<string>>> Also = new("also", new ListShape<string>(Scalars.Text), "other names");

    private static readonly Key<SpiKind> Kind = new(
        "kind",
        Scalars.Words(
            "a kind of SPI unit",
            ("fixed", SpiKind.Fixed), ("options", SpiKind.Options), ("pads", SpiKind.Pads), ("matrix", SpiKind.Matrix), ("reserved", SpiKind.Reserved),
            ("programmable", SpiKind.Programmable)),
        "how it is tied to pins")
    { IsRequired = true };

    private static readonly Key<string> SetName = new("name", Scalars.Text, "its name");
    private static readonly Key<string> SetSck = new("sck", Scalars.Text, "clock") { IsRequired = true };
    private static readonly Key<string> SetMosi = new("mosi", Scalars.Text, "data out") { IsRequired = true };
    private static readonly Key<string> SetMiso = new("miso", Scalars.Text, "data in") { IsRequired = true };
    private static readonly Key<string> SetSs = new("ss", Scalars.Text, "its own select");

    private static readonly Key<ImmutableArray<Stated<SpiSet>>> Sets = new(
        "sets",
        new ListShape<SpiSet>(new MapShape<SpiSet>(
            "a set of pins", [SetName, SetSck, SetMosi, SetMiso, SetSs, Remark.Key("note", "remark"), Remark.Key("silk", "convention of its labels")],
            s => new(
                s.Written(SetName)?.Value ?? "", s.Written(SetSck)?.Value ?? "", s.Written(SetMosi)?.Value ?? "", s.Written(SetMiso)?.Value ?? "",
                s.Written(SetSs)?.Value))),
        "complete sets of pins");

    private static readonly Key<ImmutableArray<Stated<string>>> OptionSck = Ports("sck");
    private static readonly Key<ImmutableArray<Stated<string>>> OptionMosi = Ports("mosi");
    private static readonly Key<ImmutableArray<Stated<string>>> OptionMiso = Ports("miso");
    private static readonly Key<ImmutableArray<Stated<string>>> OptionSs = Ports("ss");

    private static readonly Key<SpiOptions> Options = new(
        "options",
        new MapShape<SpiOptions>(
            "options", [OptionSck, OptionMosi, OptionMiso, OptionSs],
            s => new(
                BoardPinKeys.Texts(s.Written(OptionSck)), BoardPinKeys.Texts(s.Written(OptionMosi)), BoardPinKeys.Texts(s.Written(OptionMiso)),
                BoardPinKeys.Texts(s.Written(OptionSs)))),
        "ports by signal");

    private static readonly Key<ImmutableArray<Stated<string>>> Pad0 = Ports("PAD0");
    private static readonly Key<ImmutableArray<Stated<string>>> Pad1 = Ports("PAD1");
    private static readonly Key<ImmutableArray<Stated<string>>> Pad2 = Ports("PAD2");
    private static readonly Key<ImmutableArray<Stated<string>>> Pad3 = Ports("PAD3");

    private static readonly Key<ImmutableArray<ImmutableArray<string>>> Pads = new(
        "pads",
        new MapShape<ImmutableArray<ImmutableArray<string>>>(
            "pads", [Pad0, Pad1, Pad2, Pad3],
            s => ImmutableArray.Create(
                BoardPinKeys.Texts(s.Written(Pad0)), BoardPinKeys.Texts(s.Written(Pad1)), BoardPinKeys.Texts(s.Written(Pad2)), BoardPinKeys.Texts(s.Written(Pad3)))),
        "ports by pad");

    private static readonly ScalarShape<int> PadName = Scalars.Words("a pad", ("PAD0", 0), ("PAD1", 1), ("PAD2", 2), ("PAD3", 3));
    private static readonly Key<int> PairMosi = new("mosi", PadName, "data out") { IsRequired = true };
    private static readonly Key<int> PairSck = new("sck", PadName, "clock") { IsRequired = true };

    private static readonly Key<ImmutableArray<Stated<PadPair>>> Pairs = new(
        "options",
        new ListShape<PadPair>(new MapShape<PadPair>(
            "a pair of pads", [PairMosi, PairSck, Remark.Key("dopo", "number in the register"), Remark.Key("ss", "select")],
            s => new(s.Written(PairMosi)?.Value ?? 0, s.Written(PairSck)?.Value ?? 0))),
        "which pads may be data out and clock together");

    /// <summary>Which pads go together.</summary>
    public static readonly MapShape<ImmutableArray<PadPair>> PadRuleShape = new(
        "which pads go together",
        [Pairs, Remark.Key("source", "document"), Remark.Key("where", "section"), Remark.Key("basis", "how it is known"), Remark.Key("note", "remark")],
        s => s.Written(Pairs) is { } pairs ? ImmutableArray.CreateRange(pairs.Value.Select(pair => pair.Value)) : ImmutableArray<PadPair>.Empty);

    private static readonly Key<ImmutableArray<Stated<int>>> Dividers =
        new("dividers", new ListShape<int>(Quantities.Count("a divider")), "SCK is the clock by one of these");

    private static readonly Key<Fact<Duration>> MisoSetup = new("miso-setup", new FactShape<Duration>(Quantities.Duration), "set-up time of its data input");

    private static readonly Key<string> Watched = new("watched", Scalars.Words("a word", ("always", "always"), ("sometimes", "sometimes"), ("never", "never")), "whether a low level ends master mode");
    private static readonly Key<string> WatchedPin = new("pin", Scalars.Text, "the pin");
    private static readonly Key<string> WatchedRule = new("rule", Scalars.Text, "what happens");
    private static readonly Key<string> WatchedSource = new("source", Scalars.Text, "document");

    private static readonly Key<SlaveSelect> SlaveSelectKey = new(
        "slave-select",
        new MapShape<SlaveSelect>(
            "the select pin",
            [Watched, WatchedPin, WatchedRule, WatchedSource, Remark.Key("where", "section"), Remark.Key("basis", "how it is known"), Remark.Key("note", "remark")],
            s => new(s.Written(Watched)?.Value ?? "never", s.Written(WatchedPin)?.Value, s.Written(WatchedRule)?.Value ?? "", s.Written(WatchedSource)?.Value)),
        "the unit's own select pin");

    private static readonly Key<bool> NamingTrap = new("trap", Scalars.Truth, "printed names are those of programming");
    private static readonly Key<string> NamingText = new("is", Scalars.Text, "the remark");

    private static readonly Key<Settings> Naming = new(
        "naming",
        new MapShape<Settings>(
            "naming", [NamingText, NamingTrap, Remark.Key("source", "document"), Remark.Key("where", "section"), Remark.Key("basis", "how it is known"), Remark.Key("note", "remark")],
            s => s),
        "a remark on its pins' names");

    public static readonly MapShape<SpiUnit> Shape = new(
        "an SPI unit",
        [
            Name, Also, Kind, Sets, Options, Dividers, MisoSetup, SlaveSelectKey, Naming,
            Pads, Remark.Key("kind-note", "remark"), Remark.Key("alternate-function", "numbers by pin"),
            Remark.Key("csn-rule", "remark on CSN"), Remark.Key("matrix-rule", "remark on the pin matrix"), Remark.Key("modes", "SPI modes"),
            Remark.Key("dividers-from", "source of the dividers"), Remark.Key("fastest", "highest SCK"),
        ],
        s => new(s.Written(Name)?.Value ?? "", s.Written(Kind)?.Value ?? SpiKind.Fixed)
        {
            AlsoCalled = BoardPinKeys.Texts(s.Written(Also)),
            Sets = s.Written(Sets) is { } sets ? ImmutableArray.CreateRange(sets.Value.Select(one => one.Value)) : ImmutableArray<SpiSet>.Empty,
            Options = s.Written(Options)?.Value,
            Dividers = s.Written(Dividers) is { } dividers ? ImmutableArray.CreateRange(dividers.Value.Select(one => one.Value)) : ImmutableArray<int>.Empty,
            Pads = s.Written(Pads)?.Value ?? ImmutableArray<ImmutableArray<string>>.Empty,
            MisoSetup = s.Written(MisoSetup)?.Value,
            SlaveSelect = s.Written(SlaveSelectKey)?.Value,
            NamesAreSwapped = s.Written(Naming)?.Value.Written(NamingTrap)?.Value ?? false,
            NamingNote = s.Written(Naming)?.Value.Written(NamingText)?.Value,
        });

    private static readonly Key<string> WiringSpi = new("spi", Scalars.Text, "the unit") { IsRequired = true };
    private static readonly Key<string> WiringSck = new("sck", Scalars.Text, "clock") { IsRequired = true };
    private static readonly Key<string> WiringMosi = new("mosi", Scalars.Text, "data out") { IsRequired = true };
    private static readonly Key<string> WiringMiso = new("miso", Scalars.Text, "data in") { IsRequired = true };
    private static readonly Key<string> WiringSs = new("ss", Scalars.Text, "the unit's own select");
    private static readonly Key<string> WiringCsn = new("csn", Scalars.Text, "suits CSN") { IsRequired = true };
    private static readonly Key<string> WiringCe = new("ce", Scalars.Text, "suits CE") { IsRequired = true };
    private static readonly Key<string> WiringIrq = new("irq", Scalars.Text, "suits IRQ");

    private static readonly Key<string> WiringBasis = new("basis", Scalars.Text, "how it is known; `proposal` where the chip has no custom");

    public static readonly MapShape<CanonicalWiring?> WiringShape = new(
        "the customary wiring",
        [
            WiringSpi, WiringSck, WiringMosi, WiringMiso, WiringSs, WiringCsn, WiringCe, WiringIrq, WiringBasis,
            Remark.Key("set", "the unit's set"), Remark.Key("note", "remark"),
        ],
        s => s.Written(WiringSpi) is { } spi && s.Written(WiringSck) is { } sck && s.Written(WiringMosi) is { } mosi && s.Written(WiringMiso) is { } miso
            && s.Written(WiringCsn) is { } csn && s.Written(WiringCe) is { } ce
            ? new(spi.Value, sck.Value, mosi.Value, miso.Value, s.Written(WiringSs)?.Value, csn.Value, ce.Value, s.Written(WiringIrq)?.Value) { IsProposal = s.Written(WiringBasis)?.Value == "proposal" }
            : null);

    private static Key<ImmutableArray<Stated<string>>> Ports(string signal) => new(signal, new ListShape<string>(Scalars.Text), $"ports for {signal}");
}
