using System.Collections.Immutable;
using System.Globalization;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Units;

namespace RadioLint.Manifest.Keys;

/// <summary>The keys of `supply`, `board-supply` and `battery`; a supply's input may be another supply.</summary>
public static class SupplyKeys
{
    private static readonly string[] CapacitorKinds = ["ceramic", "electrolytic", "tantalum", "polymer"];

    private static readonly (string Word, SupplySource Source)[] Sources =
    [
        ("adapter", SupplySource.Adapter), ("regulator", SupplySource.Regulator), ("battery", SupplySource.Battery),
        ("board pin", SupplySource.BoardPin), ("converter", SupplySource.Converter), ("USB", SupplySource.Usb), ("mains", SupplySource.Mains),
        ("bench", SupplySource.Bench), ("divider", SupplySource.Divider), ("diode", SupplySource.Diode), ("LED", SupplySource.Led),
    ];

    private static readonly ScalarShape<Capacitor> CapacitorShape = new(
        "a capacitor such as `10 uF ceramic`", ReadCapacitor,
        new SchemaForm.Scalar("^[0-9]+([.][0-9]+)? (pF|nF|uF|mF)( (ceramic|electrolytic|tantalum|polymer))?$"));

    private static readonly FormsShape<ImmutableArray<Capacitor>> CapacitorsShape = new(
        Scalars.Words("a capacitor", ("none", ImmutableArray<Capacitor>.Empty)).Or(CapacitorShape.To(one => ImmutableArray.Create(one)))
            .Named("a capacitor such as `10 uF ceramic`, or `none`"),
        null,
        new ListShape<Capacitor>(CapacitorShape).As(list => ImmutableArray.CreateRange(list.Select(one => one.Value))));

    private static readonly ScalarShape<string> FilterShape = new(
        "a filter part such as `bead`, `10 ohm` or `10 uH`",
        (LocatedScalar scalar, out string value) =>
        {
            value = scalar.Text;
            return value == "bead" || Quantities.Resistance.Read(scalar, out _) is null || Quantities.Inductance.Read(scalar, out _) is null
                ? null
                : WrongType.At(scalar.Place, $"`{value}`", "a filter part such as `bead`, `10 ohm` or `10 uH`");
        },
        new SchemaForm.Scalar("^(bead|[0-9]+([.][0-9]+)? (mohm|ohm|kohm|nH|uH|mH))$"));

    private static readonly FormsShape<ImmutableArray<string>> FiltersShape = new(
        Scalars.Words("a filter", ("none", ImmutableArray<string>.Empty)).Or(FilterShape.To(one => ImmutableArray.Create(one)))
            .Named("a filter part such as `bead`, `10 ohm` or `10 uH`, or `none`"),
        null,
        new ListShape<string>(FilterShape).As(list => ImmutableArray.CreateRange(list.Select(one => one.Value))));

    public static readonly Key<SupplySource> From = new("from", Scalars.Words("a kind of supply", Sources), "what feeds it");
    private static readonly ScalarShape<string> PinName = new(
        "a pin as printed, such as `3V3`",
        (LocatedScalar scalar, out string value) =>
        {
            value = scalar.Text;
            return Quantities.Voltage.Read(scalar, out _) is null
                ? WrongType.Meant(scalar, $"`{value}` is a voltage; a pin is named as it is printed", value.Replace(" ", ""))
                : null;
        },
        new SchemaForm.Scalar(null));

    public static readonly Key<string> Pin = new("pin", PinName, "the board's pin: `3V3`, `VCC`, `5V`, `RAW`, a port pin, or `ISP 2`, the programming header's");
    public static readonly Key<string> Part = new("part", Scalars.Text, "regulator or converter, by part number");
    public static readonly Key<Voltage> Output = new("output", Quantities.Voltage, "output voltage");

    public static readonly Key<SupplyInput> Input = new(
        "input",
        new FormsShape<SupplyInput>(
            Quantities.Voltage.To(v => new SupplyInput(v, null, null))
                .Or(Scalars.Words("a kind of source", [.. Sources.Where(s => s.Word is "battery" or "USB" or "mains" or "bench")]).To(s => new SupplyInput(null, s, null)))
                .Named("a voltage, or battery, USB, mains, bench, or another supply"),
            new LateShape<Supply>(() => Shape!).As(supply => new SupplyInput(null, null, supply))),
        "what comes in: a voltage, a kind of source, or another supply");

    public static readonly Key<Current> Limit = new("limit", Quantities.Current, "most current it gives");
    public static readonly Key<Voltage> Dropout = new("dropout", Quantities.Voltage, "input less output that it needs");
    public static readonly Key<Current> Quiescent = new("quiescent", Quantities.Current, "its own current");
    public static readonly Key<Voltage> InputMax = new("input-max", Quantities.Voltage, "most input it stands");
    public static readonly Key<Share> Tolerance = new("tolerance", Quantities.Share, "of its output, either way");

    public static readonly Key<ImmutableArray<Capacitor>> CapacitorKey =
        new("capacitor", CapacitorsShape, "capacitors at the module, with their kind") { Default = "none" };

    public static readonly Key<ImmutableArray<string>> Filter = new("filter", FiltersShape, "series parts between source and module") { Default = "none" };

    public static readonly Key<ImmutableArray<Stated<Resistance>>> Resistors =
        new("resistors", new ListShape<Resistance>(Quantities.Resistance), "top and bottom of a divider");

    public static readonly Key<bool> Ground = new(
        "ground", Scalars.Words("a kind of ground", ("common", false), ("separate", true)), "whether its ground is the controller's; common if one source");

    private static readonly Key<string> LoadKind = new(
        "kind",
        Scalars.Words("a kind of load", ("motor", "motor"), ("servo", "servo"), ("relay", "relay"), ("LED strip", "LED strip"), ("other", "other")),
        "what it is");

    private static readonly Key<Current> LoadPeak = new("peak", Quantities.Current, "its peak");
    private static readonly Key<Current> LoadAverage = new("average", Quantities.Current, "its average");

    private static readonly FormsShape<OtherLoad> LoadShape = new(
        new ScalarShape<OtherLoad>("a current such as `12 mA`, or `servo 700 mA`", ReadLoad, new SchemaForm.Scalar("^((motor|servo|relay|LED strip) )?[0-9]+([.][0-9]+)? (nA|uA|mA|A)$")),
        new MapShape<OtherLoad>(
            "a load", [LoadKind, LoadPeak, LoadAverage],
            s => new("", s.Written(LoadKind)?.Value ?? "other", s.Written(LoadPeak)?.Value, s.Written(LoadAverage)?.Value)));

    private static readonly Key<ImmutableArray<Named<OtherLoad>>> AlsoFeeds =
        new("also-feeds", new NamedShape<OtherLoad>("loads", LoadShape, Scalars.Text), "what else is on this rail");

    public static readonly MapShape<Supply> Shape = new(
        "a supply",
        [From, Pin, Part, Output, Input, Limit, Dropout, Quiescent, InputMax, Tolerance, CapacitorKey, Filter, Resistors, Ground, AlsoFeeds],
        s => new(s.Place)
        {
            From = s.Written(From),
            Pin = s.Written(Pin),
            Part = s.Written(Part),
            Output = s.Written(Output),
            Input = s.Written(Input),
            Limit = s.Written(Limit),
            Dropout = s.Written(Dropout),
            Quiescent = s.Written(Quiescent),
            InputMax = s.Written(InputMax),
            Tolerance = s.Written(Tolerance),
            Capacitors = s.Get(CapacitorKey),
            Filter = s.Get(Filter),
            Resistors = s.Written(Resistors)?.Value ?? ImmutableArray<Stated<Resistance>>.Empty,
            SeparateGround = s.Written(Ground),
            AlsoFeeds = s.Written(AlsoFeeds) is { } feeds
                ? ImmutableArray.CreateRange(feeds.Value.Select(load => load.Value.Value with { Name = load.Name.Text, NamePlace = load.Name.Place }))
                : ImmutableArray<OtherLoad>.Empty,
        });

    private static readonly Key<Cells> CellsKey = new(
        "cells", Scalars.Parsed("cells such as `2 x AA alkaline`", "^([0-9]+ x )?[A-Za-z].*$", ParseCells), "how many in series, of what");

    private static readonly Key<Charge> Capacity = new("capacity", Quantities.Charge, "of the whole battery; the cells' own unless stated");
    private static readonly Key<Voltage> Fresh = new("fresh", Quantities.Voltage, "of the whole battery when new");
    private static readonly Key<Voltage> Empty = new("empty", Quantities.Voltage, "of the whole battery at its end");
    private static readonly Key<Resistance> Inner = new("resistance", Quantities.Resistance, "inside the whole battery");
    private static readonly Key<Voltage> WarnAt = new("warn-at", Quantities.Voltage, "where the program warns");

    public static readonly MapShape<Battery> BatteryShape = new(
        "`battery`",
        [CellsKey, Capacity, Fresh, Empty, Inner, WarnAt],
        s => new(s.Place, s.Written(CellsKey), s.Written(Capacity), s.Written(Fresh), s.Written(Empty), s.Written(Inner), s.Written(WarnAt)));

    private static Finding? ReadCapacitor(LocatedScalar scalar, out Capacitor value)
    {
        value = null!;
        var parts = scalar.Text.Split(' ');
        var kind = parts.Length == 3 ? parts[2] : "";
        var quantity = parts.Length == 3 ? $"{parts[0]} {parts[1]}" : scalar.Text;
        if (kind.Length > 0 && Array.IndexOf(CapacitorKinds, kind) < 0)
            return ValueNotInList.At(scalar.Place, scalar.Text, "a kind of capacitor", CapacitorKinds.Select(known => $"{quantity} {known}")) with { IsTelling = true };
        if (Quantities.Capacitance.Read(LocatedScalar.Of(scalar.Place, quantity, scalar.IsQuoted), out var capacitance) is { } fault)
            return fault;
        value = new(capacitance, kind);
        return null;
    }

    private static Finding? ReadLoad(LocatedScalar scalar, out OtherLoad value)
    {
        foreach (var kind in new[] { "motor", "servo", "relay", "LED strip", "" })
        {
            if (!scalar.Text.StartsWith(kind, StringComparison.Ordinal))
                continue;
            var fault = Quantities.Current.Read(LocatedScalar.Of(scalar.Place, scalar.Text.Substring(kind.Length).TrimStart(), scalar.IsQuoted), out var current);
            value = new("", kind.Length == 0 ? "other" : kind, current, null);
            return fault;
        }
        throw new InvalidOperationException("every text starts with the empty one");
    }

    private static Cells? ParseCells(string text)
    {
        var times = text.IndexOf(" x ", StringComparison.Ordinal);
        if (times < 0)
            return text.Length > 0 && char.IsLetter(text[0]) ? new(1, text) : null;
        return int.TryParse(text.Substring(0, times), NumberStyles.None, CultureInfo.InvariantCulture, out var count) && count is >= 1 and <= 24
            ? new(count, text.Substring(times + 3))
            : null;
    }
}
