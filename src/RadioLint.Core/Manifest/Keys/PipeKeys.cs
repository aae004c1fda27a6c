using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;

namespace RadioLint.Manifest.Keys;

/// <summary>A node's own `pipes`: number to address, `closed`, or a map.</summary>
internal sealed class PipeKeys : Shape<ImmutableArray<OwnPipe>>
{
    public static readonly PipeKeys Shape = new();

    private static readonly Key<WrittenAddress> Address = new("address", AddressKeys.Shape, "full address; pipes 2 to 5 may give the low byte alone");
    private static readonly Key<bool> Acknowledge = new("acknowledge", Scalars.Truth, "automatic acknowledgement on this pipe");
    private static readonly Key<LengthMode> Length = new("payload-length", AirScalars.PayloadLengths, "length on this pipe");

    private static readonly MapShape<Settings> Full = new("a pipe", [Address, Acknowledge, Length], s => s);

    public override string Expected => "pipes, a map from 0..5 to addresses";

    public override SchemaForm Form => new SchemaForm.Named(
        new SchemaForm.AnyOf([new SchemaForm.Words(["closed"]), AddressKeys.Hex.Form, Full.Form]));

    public override bool TryRead(LocatedValue value, List<Finding> findings, out ImmutableArray<OwnPipe> result)
    {
        result = ImmutableArray<OwnPipe>.Empty;
        if (value is not LocatedMap map)
        {
            findings.Add(WrongType.At(value.Place, value is LocatedScalar scalar ? $"`{scalar.Text}`" : value.Kind, Expected));
            return false;
        }
        var pipes = ImmutableArray.CreateBuilder<OwnPipe>();
        foreach (var entry in map.Entries)
        {
            if (entry.Key.Text is not [>= '0' and <= '5'])
                findings.Add(ValueNotInList.At(entry.Key.Place, entry.Key.Text, "a pipe", ["0", "1", "2", "3", "4", "5"]));
            else if (Pipe(entry, findings) is { } pipe)
                pipes.Add(pipe);
        }
        pipes.Sort((a, b) => a.Number.CompareTo(b.Number));
        result = pipes.ToImmutable();
        return true;
    }

    private static OwnPipe? Pipe(Entry entry, List<Finding> findings)
    {
        var number = entry.Key.Text[0] - '0';
        var place = entry.Value.Place;
        switch (entry.Value)
        {
            case LocatedScalar { Text: "closed" }:
                return new(number, entry.Key, place, true, null, null, null);
            case LocatedScalar scalar when AddressKeys.Hex.TryRead(scalar, findings, out var address):
                return new(number, entry.Key, place, false, new(address, place), null, null);
            case LocatedMap when Full.TryRead(entry.Value, findings, out var settings):
                return new(number, entry.Key, place, false, settings.Written(Address), settings.Written(Acknowledge), settings.Written(Length));
            case LocatedList:
                findings.Add(WrongType.At(place, "a list", "an address or `closed`"));
                return null;
            default:
                return null;
        }
    }
}
