using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Model;

/// <summary>How the radio module is connected.</summary>
public enum ModuleHeader
{
    EightPin,
    TenPin,
    Castellated,
    OnBoard,
}

/// <summary>What radiates.</summary>
public enum AntennaKind
{
    Printed,
    Whip,
    External,
    None,
    DummyLoad,
}

/// <summary>An antenna as far as it is stated.</summary>
public sealed record Antenna(
    Place Place, Stated<AntennaKind>? Kind, Stated<Gain>? Gain, Stated<Gain>? Cable, ImmutableArray<Stated<string>> Around);

/// <summary>The radio as written: names of parts, looked up later.</summary>
public sealed record RadioUnit(
    Place Place,
    Stated<string>? Part,
    Stated<string>? FrontEnd,
    Stated<Antenna>? Antenna,
    Stated<ModuleHeader>? Header,
    Stated<string>? Batch);
