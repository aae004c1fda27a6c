using System.Collections.Immutable;
using System.Globalization;
using RadioLint.Manifest;
using RadioLint.Units;

namespace RadioLint.Hardware;

/// <summary>What a pin can do.</summary>
[Flags]
public enum PinAbilities
{
    None = 0,
    In = 1,
    Out = 2,
    Analog = 4,
    Pwm = 8,
    Interrupt = 16,
    PinChange = 32,
}

/// <summary>Whether a pin is free.</summary>
public enum PinState
{
    Free,

    /// <summary>Works with the stated restriction.</summary>
    Caution,

    /// <summary>Flash, reset, supply, or not brought out.</summary>
    Unusable,
}

/// <summary>One pin of a board.</summary>
/// <param name="Port">The chip's name for it: `PB5`, `GPIO18`.</param>
/// <param name="Labels">As printed, the usual one first.</param>
public sealed record BoardPin(string Port, ImmutableArray<string> Labels)
{
    public ImmutableArray<string> OtherLabels { get; init; } = ImmutableArray<string>.Empty;
    public PinAbilities Can { get; init; }
    public PinState State { get; init; }

    /// <summary>Why it is taken: `flash`, `strap`, `console` ...</summary>
    public ImmutableArray<string> TakenBy { get; init; } = ImmutableArray<string>.Empty;

    public int? Number { get; init; }

    /// <summary>Position on the 40-pin header.</summary>
    public int? HeaderPin { get; init; }

    public string? ExtiLine { get; init; }
    public ImmutableArray<string> Functions { get; init; } = ImmutableArray<string>.Empty;
    public ImmutableArray<string> Carries { get; init; } = ImmutableArray<string>.Empty;
    public string? Note { get; init; }
    public bool? Tolerates5V { get; init; }
    public string? PowerDomain { get; init; }

    /// <summary>Outputs of timers that it can carry: `TC1.OCA`.</summary>
    public ImmutableArray<string> PwmOutputs { get; init; } = ImmutableArray<string>.Empty;

    /// <summary>`high` or `low` where the chip itself pulls it while it is in reset.</summary>
    public string? ResetPull { get; init; }

    /// <summary>The voltage of its domain, where that is what names the domain.</summary>
    public Voltage? DomainVoltage =>
        PowerDomain is { } domain && domain.EndsWith(" V", StringComparison.Ordinal)
        && Quantity.TryNumber(domain.Substring(0, domain.Length - 2), out var volts) && Quantity.TryScale(volts, 1_000, out var millivolts)
            ? new(millivolts)
            : null;
    public bool IsLowFrequencyOnly { get; init; }

    /// <summary>What a person looks for on the board: the header position, else the first label, else the port.</summary>
    public string Label => HeaderPin is { } at ? FormattableString.Invariant($"pin {at}") : Labels.IsEmpty ? Port : Labels[0];

    /// <summary>Label and port where they differ: `D13 (PB5)`.</summary>
    public string Both => Label == Port ? Port : $"{Label} ({Port})";

    /// <summary>The GPIO's number, else the digits of the label that is a number; null when there is neither.</summary>
    public int? PrintedNumber
    {
        get
        {
            if (Number is { } known)
                return known;
            foreach (var label in Labels)
            {
                var digits = label.StartsWith("D", StringComparison.Ordinal) ? label.Substring(1) : label;
                if (int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var number))
                    return number;
            }
            return null;
        }
    }

    public bool IsTakenBy(string what) => TakenBy.Contains(what, StringComparer.Ordinal);
}

/// <summary>How a controller's SPI unit is tied to pins.</summary>
public enum SpiKind
{
    /// <summary>Complete sets only.</summary>
    Fixed,

    /// <summary>Signals may be mixed within the unit's lists.</summary>
    Options,

    /// <summary>By pads of a serial unit.</summary>
    Pads,

    /// <summary>Any pin, through the chip's pin matrix.</summary>
    Matrix,

    /// <summary>Taken by the chip itself.</summary>
    Reserved,

    /// <summary>Made by small programs of the chip.</summary>
    Programmable,
}

/// <summary>One complete set of pins.</summary>
public sealed record SpiSet(string Name, string Sck, string Mosi, string Miso, string? Ss);

/// <summary>Ports by signal that a unit may mix.</summary>
public sealed record SpiOptions(ImmutableArray<string> Sck, ImmutableArray<string> Mosi, ImmutableArray<string> Miso, ImmutableArray<string> Ss);

/// <summary>Pads that may be data out and clock together.</summary>
public readonly record struct PadPair(int Mosi, int Sck);

/// <summary>Whether a low level on the unit's own select pin ends master mode.</summary>
public sealed record SlaveSelect(string Watched, string? Pin, string Rule, string? Source);

/// <summary>One SPI unit.</summary>
public sealed record SpiUnit(string Name, SpiKind Kind)
{
    public ImmutableArray<string> AlsoCalled { get; init; } = ImmutableArray<string>.Empty;
    public ImmutableArray<SpiSet> Sets { get; init; } = ImmutableArray<SpiSet>.Empty;
    public SpiOptions? Options { get; init; }

    /// <summary>Ports by pad of a serial unit, pad 0 first.</summary>
    public ImmutableArray<ImmutableArray<string>> Pads { get; init; } = ImmutableArray<ImmutableArray<string>>.Empty;

    /// <summary>SCK is the board's clock by one of these; empty: any frequency.</summary>
    public ImmutableArray<int> Dividers { get; init; } = ImmutableArray<int>.Empty;

    public Fact<Duration>? MisoSetup { get; init; }
    public SlaveSelect? SlaveSelect { get; init; }

    /// <summary>True where the printed names MOSI and MISO belong to programming and are swapped for a master.</summary>
    public bool NamesAreSwapped { get; init; }

    public string? NamingNote { get; init; }
}

/// <summary>The wiring that the board's customary library of pins uses, and pins that suit the radio's other lines.</summary>
public sealed record CanonicalWiring(string Spi, string Sck, string Mosi, string Miso, string? Ss, string Csn, string Ce, string? Irq)
{
    /// <summary>True where the chip has no custom of its own, and these are merely pins that suit.</summary>
    public bool IsProposal { get; init; }
}

/// <summary>What pins can interrupt.</summary>
public sealed record IrqAbility(
    ImmutableArray<string> FallingEdge, ImmutableArray<string> PinChange, ImmutableArray<string> Preferred, string? Sharing, string? Asleep);

/// <summary>What happens when a line of the radio sits on a strap.</summary>
public sealed record StrapEffect(string Verdict, string Text);

/// <summary>A pin whose level at reset decides how the chip starts.</summary>
public sealed record Strap(string Pin, string Needs, string? Pull, StrapEffect Csn, StrapEffect Ce, StrapEffect Irq, StrapEffect? Miso, string Source);

/// <summary>A share of a supply, or a fixed voltage.</summary>
public sealed record Level(Share? OfSupply, Voltage? Fixed)
{
    /// <summary>In volts at a supply.</summary>
    public Voltage At(Voltage supply) =>
        Fixed ?? new((supply.Millivolts * OfSupply!.Value.Millionths + 500_000) / 1_000_000);
}

/// <summary>A corner of the line of highest clock against supply.</summary>
public readonly record struct ClockCorner(Voltage Supply, Frequency Clock);

/// <summary>One way in which the board's 3.3 V pin may be fed.</summary>
public sealed record RailCase(string Boards, string? Part, Current Limit, string Source);

/// <summary>A rail of the board as the manifest states it.</summary>
public sealed record BoardRail(Stated<string>? Part, Stated<Current>? Limit);

/// <summary>A mode of the chip and what it draws.</summary>
public sealed record Draw(string Mode, Fact<Current>? Typical, Fact<Current>? Max);

/// <summary>A board profile, shipped or of the user's own.</summary>
public sealed record Board(string Name)
{
    public string Chip { get; init; } = "";
    public string Family { get; init; } = "";
    public Stated<Frequency>? Clock { get; init; }

    /// <summary>The voltage of its signals.</summary>
    public Stated<Voltage>? Logic { get; init; }

    /// <summary>True when that is a shipped profile's word for what such boards usually run at, and no manifest's.</summary>
    public bool IsLogicUsual { get; init; }

    public ImmutableArray<BoardPin> Pins { get; init; } = ImmutableArray<BoardPin>.Empty;
    public ImmutableArray<SpiUnit> Units { get; init; } = ImmutableArray<SpiUnit>.Empty;
    public CanonicalWiring? Wiring { get; init; }

    /// <summary>Which pads of a serial unit may be data out and clock together.</summary>
    public ImmutableArray<PadPair> PadPairs { get; init; } = ImmutableArray<PadPair>.Empty;

    public IrqAbility? Irq { get; init; }
    public ImmutableArray<Strap> Straps { get; init; } = ImmutableArray<Strap>.Empty;
    public Fact<Between<Voltage>>? SupplyRange { get; init; }

    /// <summary>The least current that its supply must give, where the maker says so.</summary>
    public Fact<Current>? Needs { get; init; }

    public Fact<Level>? HighFrom { get; init; }
    public Fact<string>? Tolerates5V { get; init; }
    public ImmutableArray<ClockCorner> ClockCorners { get; init; } = ImmutableArray<ClockCorner>.Empty;
    public Fact<Current>? PinCurrent { get; init; }
    public ImmutableArray<RailCase> Rails { get; init; } = ImmutableArray<RailCase>.Empty;
    public ImmutableArray<Draw> Draws { get; init; } = ImmutableArray<Draw>.Empty;

    /// <summary>True where the controller has Wi-Fi of its own, used or not.</summary>
    public bool HasWifi => Draws.Any(draw => draw.Mode.StartsWith("Wi-Fi", StringComparison.Ordinal));

    public ImmutableArray<string> Traps { get; init; } = ImmutableArray<string>.Empty;

    // What a user's profile adds.
    public ImmutableArray<(LocatedScalar Pin, string Use)> Reserved { get; init; } = ImmutableArray<(LocatedScalar, string)>.Empty;
    public Stated<Voltage?>? BrownOut { get; init; }
    public BoardRail? Rail3V3 { get; init; }
    public BoardRail? Rail5V { get; init; }
    public ImmutableArray<(string Part, Current Current)> AlwaysOn { get; init; } = ImmutableArray<(string, Current)>.Empty;
    /// <summary>True when `always-on` is written, if only to say that there is nothing.</summary>
    public bool StatesAlwaysOn { get; init; }

    public ImmutableArray<Stated<string>> Removed { get; init; } = ImmutableArray<Stated<string>>.Empty;

    public bool IsLinux => Family.StartsWith("Linux", StringComparison.Ordinal);

    /// <summary>The pin with a port name, or null.</summary>
    public BoardPin? Port(string? port) => port is null ? null : Pins.FirstOrDefault(pin => string.Equals(pin.Port, port, StringComparison.Ordinal));

    /// <summary>The pin with a printed label, port name or header position; the usual labels win over other conventions.</summary>
    public BoardPin? Find(string name) =>
        Pins.FirstOrDefault(pin => pin.Labels.Contains(name, StringComparer.Ordinal))
        ?? Port(name)
        ?? Pins.FirstOrDefault(pin => pin.HeaderPin is { } at && name == FormattableString.Invariant($"pin {at}"))
        ?? Pins.FirstOrDefault(pin => pin.OtherLabels.Contains(name, StringComparer.Ordinal));

    /// <summary>All names of pins, for suggestions.</summary>
    public IEnumerable<string> PinNames() => Pins.SelectMany(pin => pin.Labels.Append(pin.Port));

    public Strap? StrapAt(BoardPin pin) => Straps.FirstOrDefault(strap => string.Equals(strap.Pin, pin.Port, StringComparison.Ordinal));

    /// <summary>The unit by its name or another name of it, or null.</summary>
    public SpiUnit? Unit(string name) => Units.FirstOrDefault(unit =>
        string.Equals(unit.Name, name, StringComparison.Ordinal) || unit.AlsoCalled.Contains(name, StringComparer.Ordinal));
}
