using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Units;

namespace RadioLint.Manifest.Keys;

/// <summary>The keys of a node; `all-nodes` takes the same but `each`.</summary>
public sealed class NodeKeys
{
    /// <summary>The table for entries of `nodes`.</summary>
    public static readonly NodeKeys OfNode = new("a node", mayRepeat: true);

    /// <summary>The table for `all-nodes` and for members written out under `each`.</summary>
    public static readonly NodeKeys OfAll = new("`all-nodes`", mayRepeat: false);

    private NodeKeys(string what, bool mayRepeat)
    {
        Key[] keys =
        [
            Board, Place, Verified, Number, Pins, Wires, Spi, AlsoUses, SharesSpi, Radio, Power, Test, Height, Temperature, Supply, BoardSupply,
            Battery, RunsFor, Sleep, Service, Wifi, Host, Air, Pipes, Retry, External, Measured,
        ];
        Shape = new(what, mayRepeat ? [.. keys, Each] : keys, s => s);
    }

    public MapShape<Settings> Shape { get; }

    public Key<Each> Each { get; } = new("each", EachShape.Instance, "this entry is that many nodes: `1..30`, a list of names, or a map of differences");
    public Key<BoardChoice> Board { get; } = new("board", BoardKeys.Choice, "a profile's name, or a map with `based-on`");
    public Key<string> Place { get; } = new("place", Scalars.Text, "where it hangs");
    public Key<DateTime> Verified { get; } = new("verified", Scalars.Date, "when it was last checked against the plan");
    public Key<int> Number { get; } = new("number", Quantities.Count("a number, 1 to 254"), "the node's number; derived from its name unless stated");
    public Key<WrittenPins> Pins { get; } = new("pins", PinKeys.Pins, "which pin carries which line of the radio");
    public Key<Length> Wires { get; } = new("wires", Quantities.Length, "the longest wire between board and radio");
    public Key<SpiSetup> Spi { get; } = new("spi", PinKeys.Spi, "how the SPI is set up");
    public Key<ImmutableArray<OtherUse>> AlsoUses { get; } = new("also-uses", PinKeys.AlsoUses, "pins and units that something else uses")
    { Advice = "write each pin or unit with what uses it, such as `{ D3: buzzer }`" };


    public Key<ImmutableArray<Stated<BusNeighbour>>> SharesSpi { get; } = new("shares-spi", PinKeys.SharesSpi, "other devices on the radio's SPI lines");
    public Key<RadioUnit> Radio { get; } = new("radio", RadioKeys.Shape, "transceiver, front end, antenna");
    public Key<PowerLevel> Power { get; } = new("power", Quantities.PowerLevel, "transmit power at the chip")
    {
        Default = "0 dBm",
        Advice = "write the transmit power at the chip in dBm, such as `0 dBm`; the supply voltage belongs under `supply`",
    };
    public Key<string> Test { get; } = new("test", Scalars.Words("a test", ("none", "none"), ("carrier", "carrier"), ("pll-lock", "pll-lock")), "test signals left switched on") { Default = "none" };
    public Key<Length> Height { get; } = new("height", Quantities.Length, "of the antenna above ground");
    public Key<Between<Temperature>> Temperature { get; } = new("temperature", Quantities.Temperatures, "where it lives");
    public Key<Supply> Supply { get; } = new("supply", SupplyKeys.Shape, "the chain that ends at the radio's VDD")
    { Advice = "write what feeds the radio, such as `{ from: adapter, input: 5 V }`" };
    public Key<Supply> BoardSupply { get; } = new("board-supply", SupplyKeys.Shape, "the chain that ends at the controller")
    { Advice = "write what feeds the controller, such as `{ from: USB }`" };
    public Key<Battery> Battery { get; } = new("battery", SupplyKeys.BatteryShape, "the node's battery")
    { Advice = "write its cells, such as `{ cells: 2 x AA alkaline }`" };
    public Key<Duration> RunsFor { get; } = new("runs-for", Quantities.Duration, "time without a visit");
    public Key<Sleep> Sleep { get; } = new("sleep", HabitKeys.SleepShape, "how it sleeps; absent: awake");
    public Key<Service> Service { get; } = new("service", HabitKeys.ServiceShape, "how the program tends the radio");
    public Key<int?> Wifi { get; } = new("wifi", HabitKeys.OwnWifi, "`none`, or the Wi-Fi channel that this node uses itself");
    public Key<Host> Host { get; } = new("host", HabitKeys.HostShape, "how it reaches a host computer");
    public Key<Settings> Air { get; } = new("air", AirKeys.Shape, "own values where firmware already differs");
    public Key<ImmutableArray<OwnPipe>> Pipes { get; } = new("pipes", PipeKeys.Shape, "receive pipes as its firmware has them");
    public Key<Retry> Retry { get; } = new("retry", AirKeys.RetryShape, "its own repetitions") { Advice = AirKeys.RetryAdvice };
    public Key<bool> External { get; } = new("external", Scalars.Truth, "somebody else's node: checked, never emitted") { Default = "false" };
    public Key<Measured> Measured { get; } = new("measured", HabitKeys.MeasuredShape, "readings from the bench");
}

/// <summary>The nodes that one entry stands for: numbers, names, or names with differences.</summary>
public sealed record Each(IEnumerable<EachMember> Members);

/// <summary>One of them.</summary>
/// <param name="Suffix">What follows the entry's name and a hyphen.</param>
/// <param name="Differences">Its own keys, or null.</param>
public sealed record EachMember(string Suffix, RadioLint.Text.Place Place, Settings? Differences);

internal sealed class EachShape : Shape<Each>
{
    /// <summary>The most nodes that one entry may stand for.</summary>
    private const int Most = 100_000;

    public static readonly EachShape Instance = new();

    public override string Expected => "a range such as `1..30`, a list of names, or a map of names";

    public override SchemaForm Form => new SchemaForm.AnyOf(
    [
        new SchemaForm.Scalar("^[0-9]+[.][.][0-9]+$"),
        new SchemaForm.ListOf(new SchemaForm.Scalar(null)),
        new SchemaForm.Named(new SchemaForm.AnyOf([new SchemaForm.Nothing(), NodeKeys.OfAll.Shape.Form])),
    ]);

    public override bool TryRead(LocatedValue value, List<Finding> findings, [System.Diagnostics.CodeAnalysis.MaybeNullWhen(false)] out Each result)
    {
        var members = new List<EachMember>();
        result = null;
        switch (value)
        {
            case LocatedScalar scalar when NodeRange.TryParse(scalar.Text, out var first, out var last) && last - first < Most:
                result = new(Enumerable.Range(first, last - first + 1)
                    .Select(n => new EachMember(n.ToString(System.Globalization.CultureInfo.InvariantCulture), scalar.Place, null)));
                return true;
            case LocatedList list:
                foreach (var item in list.Items)
                {
                    if (item is LocatedScalar name)
                        members.Add(new(name.Text, name.Place, null));
                    else
                        findings.Add(WrongType.At(item.Place, item.Kind, "a name"));
                }
                break;
            case LocatedMap map:
                foreach (var entry in map.Entries)
                {
                    var isBare = entry.Value is LocatedScalar { IsQuoted: false, Text: "" };
                    Settings? differences = null;
                    if (isBare || NodeKeys.OfAll.Shape.TryRead(entry.Value, findings, out differences))
                        members.Add(new(entry.Key.Text, entry.Key.Place, differences));
                }
                break;
            case LocatedScalar large when NodeRange.TryParse(large.Text, out var from, out var to):
                findings.Add(WrongType.Because(
                    large.Place, FormattableString.Invariant($"`{large.Text}` is {to - from + 1} nodes; at most {Most} are read"), "write a smaller range"));
                return false;
            case LocatedScalar written when Meant(written.Text) is { } range:
                findings.Add(WrongType.Meant(written, $"`{written.Text}` is no range", range));
                return false;
            default:
                findings.Add(WrongType.At(value.Place, value is LocatedScalar s ? $"`{s.Text}`" : value.Kind, Expected));
                return false;
        }
        result = new(members);
        return true;
    }

    // `12`, `1-12`, `1 .. 12`.
    private static string? Meant(string text)
    {
        var parts = text.Split(['-', '.', ' '], StringSplitOptions.RemoveEmptyEntries);
        var range = parts.Length == 1 ? $"1..{parts[0]}" : string.Join("..", parts);
        return range != text && NodeRange.TryParse(range, out var first, out var last) && last - first < Most ? range : null;
    }
}

/// <summary>`1..30`.</summary>
internal static class NodeRange
{
    public static bool TryParse(string text, out int first, out int last)
    {
        first = last = 0;
        var dots = text.IndexOf("..", StringComparison.Ordinal);
        return dots > 0 && Number(text.Substring(0, dots), out first) && Number(text.Substring(dots + 2), out last) && first <= last;
    }

    private static bool Number(string text, out int number)
    {
        number = 0;
        return text.Length is > 0 and <= 7 && text.All(c => c is >= '0' and <= '9') && (text.Length == 1 || text[0] != '0')
            && int.TryParse(text, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out number);
    }
}
