using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Manifest.Keys;

/// <summary>The keys of `radio` and its antenna.</summary>
public static class RadioKeys
{
    private static readonly ScalarShape<AntennaKind> Kinds = Scalars.Words(
        "a kind of antenna",
        ("printed", AntennaKind.Printed), ("whip", AntennaKind.Whip), ("external", AntennaKind.External), ("none", AntennaKind.None),
        ("dummy load", AntennaKind.DummyLoad));

    private static readonly Key<AntennaKind> Kind = new("kind", Kinds, "what radiates");
    private static readonly Key<Gain> Gain = new("gain", Quantities.AntennaGain, "its gain");
    private static readonly Key<Gain> Cable = new("cable", Quantities.Gain, "loss of its cable");

    private static readonly Key<ImmutableArray<Stated<string>>> Around = new(
        "around",
        new ListShape<string>(Scalars.Words(
            "surroundings", ("clear", "clear"), ("battery", "battery"), ("copper", "copper"), ("metal", "metal"), ("metal box", "metal box"))),
        "what is near it");

    private static readonly FormsShape<Antenna> AntennaShape = new(
        Quantities.AntennaGain.To(gain => new Antenna(default, null, new(gain, default), null, ImmutableArray<Stated<string>>.Empty))
            .Or(Kinds.To(kind => new Antenna(default, new(kind, default), null, null, ImmutableArray<Stated<string>>.Empty)))
            .Named("a gain such as `2 dBi`, or printed, whip, external, none, dummy load"),
        new MapShape<Antenna>(
            "an antenna", [Kind, Gain, Cable, Around],
            s => new(s.Place, s.Written(Kind), s.Written(Gain), s.Written(Cable), s.Written(Around)?.Value ?? ImmutableArray<Stated<string>>.Empty)));

    private static readonly Key<string> Part = new("part", Scalars.Text, "the transceiver by part number") { Default = "nRF24L01+" };
    private static readonly Key<string> FrontEnd = new("front-end", Scalars.Text, "power and low-noise amplifier by part number");
    private static readonly Key<Antenna> AntennaKey = new("antenna", AntennaShape, "gain, kind, or a map");

    private static readonly Key<ModuleHeader> Header = new(
        "header",
        Scalars.Words(
            "a kind of module",
            ("8-pin", ModuleHeader.EightPin), ("10-pin", ModuleHeader.TenPin), ("castellated", ModuleHeader.Castellated), ("on board", ModuleHeader.OnBoard)),
        "how the module is connected");

    private static readonly Key<string> Batch = new("batch", Scalars.Text, "delivery that it came with");

    public static readonly MapShape<RadioUnit> Shape = new(
        "`radio`",
        [Part, FrontEnd, AntennaKey, Header, Batch],
        s => new(s.Place, s.Get(Part), s.Written(FrontEnd), Placed(s.Written(AntennaKey)), s.Written(Header), s.Written(Batch)));

    /// <summary>What holds when `radio` is not written.</summary>
    internal static RadioUnit Default(RadioLint.Text.Place place) => new(place, Part.DefaultAt(place), null, null, null, null);

    // The short form is read without a place: give it that of the key's value.
    private static Stated<Antenna>? Placed(Stated<Antenna>? antenna)
    {
        if (antenna is not { Value.Place.Source: null })
            return antenna;
        var (value, place) = (antenna.Value, antenna.Place);
        return antenna with
        {
            Value = value with { Place = place, Kind = value.Kind is null ? null : value.Kind with { Place = place }, Gain = value.Gain is null ? null : value.Gain with { Place = place } },
        };
    }
}
