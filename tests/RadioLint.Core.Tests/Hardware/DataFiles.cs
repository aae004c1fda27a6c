using RadioLint.Hardware.Keys;
using RadioLint.Manifest;
using RadioLint.Manifest.Keys;
using RadioLint.Spectrum;

namespace RadioLint.Tests.Hardware;

/// <summary>The shipped data files and the tables that read them.</summary>
internal static class DataFiles
{
    public static readonly (string Prefix, IMapShape Shape)[] Tables =
    [
        ("Hardware/boards/", BoardKeys.Profile),
        ("Hardware/radios/", RadioPartKeys.File),
        ("Hardware/front-ends.yaml", FrontEndKeys.File),
        ("Hardware/modules.yaml", ModuleKindKeys.File),
        ("Hardware/regulators.yaml", RegulatorKeys.File),
        ("Hardware/cells.yaml", CellKindKeys.File),
        ("Hardware/bus-devices.yaml", BusDeviceKeys.File),
        ("Spectrum/bands.yaml", BandKeys.File),
        ("Spectrum/neighbours.yaml", NeighbourPlanKeys.File),
        ("Spectrum/countries.yaml", Countries.File),
    ];
}
