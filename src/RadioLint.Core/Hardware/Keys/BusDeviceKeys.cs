using System.Collections.Immutable;
using RadioLint.Manifest;

namespace RadioLint.Hardware.Keys;

/// <summary>The keys of the file of devices on the bus.</summary>
internal static class BusDeviceKeys
{
    private static readonly Key<ImmutableArray<string>> Called = Figure.List("called", Scalars.Text, "what a part may be called");

    private static readonly Key<Fact<UnselectedMiso>> Miso = Figure.Always(
        "miso",
        Scalars.Words("what becomes of MISO", ("often held", UnselectedMiso.OftenHeld), ("held", UnselectedMiso.Held)),
        "what it does to MISO while it is not selected");

    private static readonly MapShape<BusDevice> Entry = new(
        "a device", [Called, Miso], s => new() { Name = "", Called = s.The(Called), Miso = s.The(Miso) });

    private static readonly Key<ImmutableArray<BusDevice>> All =
        Figure.Plain("devices", Figure.Named<BusDevice, BusDevice>("devices", Entry, (name, device) => device with { Name = name }), "by name");

    public static readonly MapShape<ImmutableArray<BusDevice>> File = new("the file of devices", [All, Remark.Key("sources", "documents")], s => s.The(All));
}
