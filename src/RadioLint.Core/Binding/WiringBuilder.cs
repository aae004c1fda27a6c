using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Binding;

/// <summary>A node's wiring: written pins looked up on the board, the rest completed by the board's customary ones.</summary>
internal sealed class WiringBuilder(Board? board, Place boardPlace, WrittenPins? pins, SpiSetup? spi, List<Finding> findings)
{
    private static readonly Frequency DefaultCeiling = Frequency.FromMegahertz(4);
    private static readonly Frequency SoftwareClock = new(500_000);

    public Wiring Build(Place node)
    {
        var isSoftware = spi?.Software?.Value ?? false;
        var named = NamedUnit();
        var usual = Usual(named);
        var sck = Line("sck", pins?.Sck, usual?.Sck);
        var mosi = Line("mosi", pins?.Mosi, usual?.Mosi);
        var miso = Line("miso", pins?.Miso, usual?.Miso);
        var (unit, set) = isSoftware ? (null, null) : UnitOf(named, sck?.Pin, mosi?.Pin, miso?.Pin);
        return new(pins?.Place ?? node)
        {
            Ce = Line("ce", pins?.Ce, null),
            Csn = Line("csn", pins?.Csn, null),
            Irq = Line("irq", pins?.Irq, null),
            Sck = sck,
            Mosi = mosi,
            Miso = miso,
            Unit = unit ?? named,
            Set = set,
            IsSoftware = isSoftware,
            Clock = spi?.Clock?.Value ?? (isSoftware ? SoftwareClock : FastestStep(unit ?? named)),
        };
    }

    private SpiUnit? NamedUnit()
    {
        if (board is null || spi?.Unit is not { } name)
            return null;
        var unit = board.Unit(name.Value);
        if (unit is null)
            findings.Add(ValueNotInList.At(name.Place, name.Value, $"an SPI unit of {board.Name}", board.Units.Select(known => known.Name)));
        return unit;
    }

    private SpiSet? Usual(SpiUnit? named)
    {
        if (board?.Wiring is not { } wiring)
            return null;
        var customary = new SpiSet("", wiring.Sck, wiring.Mosi, wiring.Miso, wiring.Ss);
        return named is null || named.Name == wiring.Spi ? customary : named.Sets.IsEmpty ? customary : named.Sets[0];
    }

    private Line? Line(string signal, PinUse? use, string? usual)
    {
        if (use is not null)
            return new(signal, use.Pin?.Place ?? use.Place, use.Pin?.Value, use.Pin is null ? null : board?.Find(use.Pin.Value)) { Use = use };
        return usual is null ? null : new(signal, boardPlace, usual, board?.Port(usual));
    }

    // The unit whose pins these are: the customary one first, then in the profile's order.
    private (SpiUnit? Unit, SpiSet? Set) UnitOf(SpiUnit? named, BoardPin? sck, BoardPin? mosi, BoardPin? miso)
    {
        if (board is null || sck is null || mosi is null || miso is null)
            return (null, null);
        var units = named is not null
            ? [named]
            : board.Units.Where(unit => unit.Kind is not (SpiKind.Reserved or SpiKind.Programmable)).OrderBy(unit => unit.Name == board.Wiring?.Spi ? 0 : 1).ToList();
        foreach (var unit in units)
        {
            if (SpiFit.Set(unit, sck, mosi, miso) is { } set)
                return (unit, set);
        }
        return (units.FirstOrDefault(unit => SpiFit.Fits(board, unit, sck, mosi, miso)), null);
    }

    private Frequency? FastestStep(SpiUnit? unit)
    {
        if (unit is null || unit.Dividers.IsEmpty)
            return unit is null && board is null ? null : DefaultCeiling;
        if (board?.Clock?.Value is not { } clock)
            return null;
        foreach (var divider in unit.Dividers.OrderBy(divider => divider))
        {
            if (clock.Hertz <= DefaultCeiling.Hertz * divider)
                return new(clock.Hertz / divider);
        }
        return null;
    }
}
