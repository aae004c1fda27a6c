using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;

namespace RadioLint.Manifest.Keys;

/// <summary>A payload: fields by name, or the long form with `fields`, `layout`, `order`, `byte-order`.</summary>
public sealed class PayloadKeys : Shape<Payload>
{
    public static readonly PayloadKeys Shape = new();

    // As many fields as a packet may hold.
    private const int MostNamed = 32;

    private static readonly Key<LocatedMap> Fields = new("fields", new RawMap(), "the fields") { IsRequired = true };

    private static readonly Key<bool> Layout = new(
        "layout", Scalars.Words("a layout", ("packed", false), ("natural", true)), "`packed`, or `natural` as compilers lay a struct out")
    { Default = "packed" };

    private static readonly Key<FieldOrder> Order = new(
        "order", new FormsShape<FieldOrder>(Scalars.Words("an order", ("open", FieldOrder.Open)), null, new OrderList()),
        "names of all fields in the order in which they are sent, or `open`; as written unless stated");

    private static readonly Key<bool> ByteOrder = new(
        "byte-order", Scalars.Words("a byte order", ("little", false), ("big", true)), "of numbers of several bytes; little unless stated");

    private static readonly MapShape<Settings> LongForm = new("a payload", [Fields, Layout, Order, ByteOrder], s => s);

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
        result = Ordered(Whole(map, fields.Value, findings) with
        {
            Natural = settings.Written(Layout),
            Order = settings.Written(Order),
            BigEndian = settings.Written(ByteOrder),
        }, findings);
        return true;
    }

    private static Payload Whole(LocatedMap map, LocatedMap written, List<Finding> findings)
    {
        var fields = ReadFields(written, findings);
        var isComplete = fields.Length == written.Entries.Count(entry => !entry.Key.Text.StartsWith("x-", StringComparison.Ordinal));
        return new("", map.Place, fields) { FieldsPlace = written.Place, IsComplete = isComplete };
    }

    // A list that does not name each field once says nothing of where the fields lie.
    private static Payload Ordered(Payload payload, List<Finding> findings)
    {
        if (payload.Order is not { } order || !payload.IsComplete)
            return payload;
        if (order.Value.IsOpen)
            return payload with { Fields = AlignedOrder.Of(payload) };
        var before = findings.Count;
        var byName = payload.Fields.GroupBy(field => field.Name, StringComparer.Ordinal).ToDictionary(same => same.Key, same => same.First(), StringComparer.Ordinal);
        var ordered = new List<Field>();
        var named = new HashSet<string>(StringComparer.Ordinal);
        foreach (var name in order.Value.Names)
        {
            if (Reading.HasEnough(findings, name.Place))
                break;
            if (!byName.TryGetValue(name.Value, out var field))
                findings.Add(UndefinedReference.At(name.Place, name.Value, "field of this payload", payload.Fields.Take(MostNamed).Select(one => one.Name)));
            else if (!named.Add(name.Value))
                findings.Add(WrongType.Because(name.Place, $"`{name.Value}` stands in the order of fields twice", "name each field once"));
            else
                ordered.Add(field);
        }
        // A slip in a name leaves one out as well: it is told once.
        if (findings.Count == before && payload.Fields.Where(field => !named.Contains(field.Name)).Take(MostNamed).Select(field => $"`{field.Name}`").ToList() is { Count: > 0 } left)
            findings.Add(WrongType.Because(order.Place, $"the order of fields leaves out {string.Join(", ", left)}", "name each field once"));
        return findings.Count == before ? payload with { Fields = ImmutableArray.CreateRange(ordered) } : payload with { IsComplete = false };
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

    private sealed class OrderList : Shape<FieldOrder>
    {
        private static readonly ListShape<string> Names = new(Scalars.Reference);

        public override string Expected => "a list of the fields' names";

        public override SchemaForm Form => new SchemaForm.ListOf(Scalars.Reference.Form);

        public override bool TryRead(LocatedValue value, List<Finding> findings, [MaybeNullWhen(false)] out FieldOrder result)
        {
            result = Names.TryRead(value, findings, out var names) && !names.IsEmpty ? new(names) : null;
            if (value is LocatedList { Items.Count: 0 })
                findings.Add(WrongType.At(value.Place, "an empty list", "a list of all fields' names"));
            return result is not null;
        }
    }
}
