using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;

namespace RadioLint.Manifest.Keys;

/// <summary>A payload: fields by name, or the long form with `fields`, `layout`, `byte-order`.</summary>
public sealed class PayloadKeys : Shape<Payload>
{
    public static readonly PayloadKeys Shape = new();

    private static readonly Key<LocatedMap> Fields = new("fields", new RawMap(), "the fields") { IsRequired = true };

    private static readonly Key<bool> Layout = new(
        "layout", Scalars.Words("a layout", ("packed", false), ("natural", true)), "`packed`, or `natural` as compilers lay a struct out")
    { Default = "packed" };

    private static readonly Key<bool> ByteOrder = new(
        "byte-order", Scalars.Words("a byte order", ("little", false), ("big", true)), "of numbers of several bytes; little unless stated");

    private static readonly MapShape<Settings> LongForm = new("a payload", [Fields, Layout, ByteOrder], s => s);

    public override string Expected => "a payload, a map of fields";

    public override SchemaForm Form => new SchemaForm.AnyOf([LongForm.Form, FieldsForm]);

    private static SchemaForm FieldsForm => new SchemaForm.Named(FieldText.FieldForm);

    public override bool TryRead(LocatedValue value, List<Finding> findings, [MaybeNullWhen(false)] out Payload result)
    {
        result = null;
        if (value is not LocatedMap map)
        {
            findings.Add(WrongType.At(value.Place, value is LocatedScalar scalar ? $"`{scalar.Text}`" : value.Kind, Expected));
            return false;
        }
        if (map.Find("fields") is not { Value: LocatedMap })
        {
            result = Whole(map, map, findings);
            return true;
        }
        if (!LongForm.TryRead(map, findings, out var settings) || settings.Written(Fields) is not { } fields)
            return false;
        result = Whole(map, fields.Value, findings) with
        {
            Natural = settings.Written(Layout),
            BigEndian = settings.Written(ByteOrder),
        };
        return true;
    }

    private static Payload Whole(LocatedMap map, LocatedMap written, List<Finding> findings)
    {
        var fields = ReadFields(written, findings);
        var isComplete = fields.Length == written.Entries.Count(entry => !entry.Key.Text.StartsWith("x-", StringComparison.Ordinal));
        return new("", map.Place, fields) { FieldsPlace = written.Place, IsComplete = isComplete };
    }

    private static ImmutableArray<Field> ReadFields(LocatedMap map, List<Finding> findings)
    {
        var fields = ImmutableArray.CreateBuilder<Field>();
        foreach (var entry in map.Entries)
        {
            if (entry.Key.Text.StartsWith("x-", StringComparison.Ordinal))
                continue;
            if (Reading.HasEnough(findings, entry.Key.Place))
                break;
            if (Scalars.NewName.Read(entry.Key, out _) is { } fault)
                findings.Add(fault);
            if (FieldText.Read(entry, findings) is { } one)
                fields.Add(one);
        }
        return fields.ToImmutable();
    }

    private sealed class RawMap : Shape<LocatedMap>
    {
        public override string Expected => "fields, a map of names and types";

        public override SchemaForm Form => FieldsForm;

        public override bool TryRead(LocatedValue value, List<Finding> findings, [MaybeNullWhen(false)] out LocatedMap result)
        {
            result = value as LocatedMap;
            if (result is null)
                findings.Add(WrongType.At(value.Place, value.Kind, Expected));
            return result is not null;
        }
    }
}
