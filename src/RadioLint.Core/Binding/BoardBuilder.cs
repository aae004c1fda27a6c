using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Manifest;
using RadioLint.Manifest.Keys;

namespace RadioLint.Binding;

/// <summary>A profile from its settings, on top of the one that it is based on.</summary>
internal static class BoardBuilder
{
    public static Board Build(string name, Board? basis, Settings settings)
    {
        var start = basis ?? new Board(name);
        return start with
        {
            Name = name,
            Chip = settings.Written(BoardKeys.Chip)?.Value ?? start.Chip,
            Family = settings.Written(BoardKeys.Family)?.Value ?? start.Family,
            Clock = settings.Written(BoardKeys.Clock) ?? start.Clock,
            Logic = settings.Written(BoardKeys.Logic) ?? start.Logic,
            IsLogicUsual = start.IsLogicUsual && settings.Written(BoardKeys.Logic) is null,
            Pins = Merge(start.Pins, settings.Written(BoardKeys.Pins), (pin, port) => pin with { Port = port }, pin => pin.Port),
            Units = Merge(start.Units, settings.Written(BoardKeys.Spi), Unit, unit => unit.Name),
            Wiring = settings.Written(BoardKeys.Wiring)?.Value ?? start.Wiring,
            PadPairs = settings.Written(BoardKeys.PadRule)?.Value ?? start.PadPairs,
            Irq = settings.Written(BoardKeys.Irq)?.Value ?? start.Irq,
            Straps = settings.Written(BoardKeys.Straps) is { } straps ? List(straps.Value) : start.Straps,
            SupplyRange = settings.Written(BoardKeys.Supply)?.Value.Written(ChipKeys.SupplyRange)?.Value ?? start.SupplyRange,
            Needs = settings.Written(BoardKeys.Supply)?.Value.Written(ChipKeys.SupplyNeeds)?.Value ?? start.Needs,
            Tolerates5V = settings.Written(BoardKeys.Supply)?.Value.Written(ChipKeys.Tolerates5V)?.Value ?? start.Tolerates5V,
            HighFrom = settings.Written(BoardKeys.Levels)?.Value.Written(ChipKeys.High)?.Value ?? start.HighFrom,
            ClockCorners = settings.Written(BoardKeys.ClockLimit)?.Value.Written(ChipKeys.Corners) is { } corners ? List(corners.Value) : start.ClockCorners,
            PinCurrent = settings.Written(BoardKeys.PinCurrent)?.Value.Written(ChipKeys.PinAbsolute)?.Value ?? start.PinCurrent,
            Rails = settings.Written(BoardKeys.Rails) is { } rails ? List(rails.Value) : start.Rails,
            Draws = settings.Written(BoardKeys.Currents) is { } draws ? List(draws.Value) : start.Draws,
            Traps = settings.Written(BoardKeys.Traps) is { } traps ? List(traps.Value) : start.Traps,
            Reserved = settings.Written(BoardKeys.Reserved) is { } reserved
                ? start.Reserved.AddRange(reserved.Value.Select(pin => (pin.Name, pin.Value.Value)))
                : start.Reserved,
            BrownOut = settings.Written(BoardKeys.BrownOut) ?? start.BrownOut,
            Rail3V3 = settings.Written(BoardKeys.Rail3V3)?.Value ?? start.Rail3V3,
            Rail5V = settings.Written(BoardKeys.Rail5V)?.Value ?? start.Rail5V,
            AlwaysOn = settings.Written(BoardKeys.AlwaysOn) is { } parts
                ? start.AlwaysOn.AddRange(parts.Value.Select(part => (part.Name.Text, part.Value.Value)))
                : start.AlwaysOn,
            StatesAlwaysOn = start.StatesAlwaysOn || settings.Written(BoardKeys.AlwaysOn) is not null,
            Removed = settings.Written(BoardKeys.Removed) is { } removed ? start.Removed.AddRange(removed.Value) : start.Removed,
        };
    }

    // A unit without a full name of its own is called by its key; the full name becomes another name.
    private static SpiUnit Unit(SpiUnit unit, string key) =>
        unit with { Name = key, AlsoCalled = unit.Name.Length == 0 ? unit.AlsoCalled : unit.AlsoCalled.Add(unit.Name) };

    private static ImmutableArray<T> List<T>(ImmutableArray<Stated<T>> items) => ImmutableArray.CreateRange(items.Select(item => item.Value));

    private static ImmutableArray<T> Merge<T>(
        ImmutableArray<T> start, Stated<ImmutableArray<Named<T>>>? written, Func<T, string, T> named, Func<T, string> nameOf)
    {
        if (written is null)
            return start;
        var merged = start.ToBuilder();
        var index = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var item in start)
            index.Add(nameOf(item), index.Count);
        foreach (var (name, value) in written.Value)
        {
            if (index.TryGetValue(name.Text, out var at))
                merged[at] = named(value.Value, name.Text);
            else
                merged.Add(named(value.Value, name.Text));
        }
        return merged.ToImmutable();
    }
}
