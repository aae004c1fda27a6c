using System.Collections.Immutable;
using RadioLint.Hardware.Keys;

namespace RadioLint.Hardware;

/// <summary>What a device does to MISO while it is not selected.</summary>
public enum UnselectedMiso
{
    /// <summary>Some makes drive it.</summary>
    OftenHeld,

    /// <summary>It drives it.</summary>
    Held,
}

/// <summary>A kind of device that is known not to release MISO.</summary>
public sealed record BusDevice
{
    /// <summary>As the data file calls it.</summary>
    public required string Name { get; init; }

    /// <summary>What a manifest's `part` may contain.</summary>
    public required ImmutableArray<string> Called { get; init; }

    public required Fact<UnselectedMiso> Miso { get; init; }
}

/// <summary>The kinds of device that ship with the library.</summary>
public static class BusDevices
{
    private static readonly Shelf<BusDevice> Shelf = new(() => DataFile.Read("Hardware/bus-devices.yaml", BusDeviceKeys.File), device => device.Name);

    /// <summary>In the order of the data file.</summary>
    public static ImmutableArray<BusDevice> All => Shelf.All;

    /// <summary>The kind that a manifest's `part` speaks of, the surest first; null when none is known.</summary>
    public static BusDevice? In(string part) => Shelf.All
        .Where(device => device.Called.Any(name => part.IndexOf(name, StringComparison.OrdinalIgnoreCase) >= 0))
        .OrderBy(device => device.Miso.Value is UnselectedMiso.Held ? 0 : 1).FirstOrDefault();
}
