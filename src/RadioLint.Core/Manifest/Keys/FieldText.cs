using System.Collections.Immutable;
using System.Globalization;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Manifest.Keys;

/// <summary>
/// One field: `[N x] TYPE [SCALE] [UNIT] [in LOW..HIGH] [= VALUE] [as ROLE]`, or a map for bits and choices.
/// </summary>
internal static class FieldText
{
    private const string Expected = "a field such as `int16 0.01 degC in -40..85` or `text 12`";

    private static readonly string[] CompilerTypes = ["int", "long", "double", "bool", "char", "string", "short", "float", "unsigned"];
    private static readonly string[] Roles = ["sender", "sequence", "type", "version"];

    private static readonly string[] Types =
    [
        "int8", "int16", "int32", "int64", "uint8", "uint16", "uint32", "uint64", "float32", "text", "bytes",
    ];

    /// <summary>The form for editors.</summary>
    public static readonly SchemaForm FieldForm = new SchemaForm.AnyOf(
    [
        new SchemaForm.Scalar($"^([0-9]+ x )?({string.Join("|", Types.Concat(CompilerTypes))})(:[0-9]+)?( .*)?$"),
        new SchemaForm.Named(new SchemaForm.Scalar(null)),
        new SchemaForm.Named(new SchemaForm.ListOf(new SchemaForm.Scalar(null))),
        new SchemaForm.Named(new SchemaForm.Named(new SchemaForm.Whole())),
    ]);

    /// <summary>The field, or null with a finding.</summary>
    public static Field? Read(Entry entry, List<Finding> findings)
    {
        return ReadValue(entry, findings) is { } field ? field with { ValuePlace = entry.Value.Place } : null;
    }

    private static Field? ReadValue(Entry entry, List<Finding> findings)
    {
        if (entry.Value is LocatedMap map)
            return ReadMap(entry.Key, map, findings);
        if (entry.Value is not LocatedScalar scalar)
        {
            findings.Add(WrongType.At(entry.Value.Place, entry.Value.Kind, Expected));
            return null;
        }
        var reading = new FieldWords(scalar);
        if (Parse(entry.Key, scalar, reading, out var result) is not { } fault)
            return result;
        findings.Add(fault);
        return null;
    }

    private static Finding? Parse(LocatedScalar name, LocatedScalar scalar, FieldWords words, out Field result)
    {
        result = new(name.Text, name.Place, scalar.Place, FieldKind.Integer) { Role = Array.Find(Roles, role => role == name.Text) };
        var count = 1;
        if (words.At(1) == "x" && Count(words.At(0), out count))
            words.Skip(2);
        var type = words.Next() ?? "";
        if (Type(type, words, scalar, result, out result) is { } fault)
            return fault;
        result = result with { Count = count, TypePlace = PlaceOf(type, scalar) };
        if (words.Peek() is { } scale && Quantity.TryNumber(scale, out var factor))
        {
            if (factor <= 0)
                return WrongType.At(scalar.Place, $"the scale `{scale}`", "a scale above 0");
            result = result with { Scale = factor };
            words.Skip(1);
        }
        if (words.Peek() is { } unit && unit is not ("in" or "=" or "as"))
        {
            result = result with { Unit = unit };
            words.Skip(1);
        }
        return Tail(scalar, words, result, out result);
    }

    // The word itself, so that it can be replaced; the whole text where escapes hide it.
    private static Place PlaceOf(string type, LocatedScalar scalar)
    {
        var at = (" " + scalar.Place.Text.Trim('"', '\'') + " ").IndexOf($" {type} ", StringComparison.Ordinal);
        var quote = scalar.Place.Text.Length > 0 && scalar.Place.Text[0] is '"' or '\'' ? 1 : 0;
        return at < 0 ? scalar.Place : new(scalar.Place.Source, scalar.Place.Start + at + quote, type.Length);
    }

    private static Finding? Tail(LocatedScalar scalar, FieldWords words, Field before, out Field result)
    {
        result = before;
        while (words.Next() is { } word)
        {
            var value = words.Next();
            switch (word)
            {
                case "in" when value is not null && Range(value, out var range):
                    result = result with { Range = range };
                    break;
                case "in":
                    return WrongType.Because(
                        scalar.Place, $"`in {value}` is no range from low to high", "write it in the field's unit, such as `in -40..85`");
                case "=" when value is not null && Quantity.TryNumber(value, out var constant):
                    result = result with { Constant = constant };
                    break;
                case "as" when value is not null:
                    if (Array.IndexOf(Roles, value) < 0)
                        return ValueNotInList.At(scalar.Place, value, "a role", Roles);
                    result = result with { Role = value };
                    break;
                default:
                    return WrongType.At(scalar.Place, $"`{scalar.Text}`", Expected);
            }
        }
        return null;
    }

    private static Finding? Type(string type, FieldWords words, LocatedScalar scalar, Field before, out Field result)
    {
        result = before with { TypeName = type };
        if (type is "text" or "bytes")
        {
            if (!Count(words.Next(), out var length))
                return WrongType.Because(scalar.Place, $"`{scalar.Text}` does not say its length in bytes", $"write it after the type, such as `{type} 12`");
            result = result with { Kind = type == "text" ? FieldKind.Text : FieldKind.Bytes, ItemSize = length, TypeName = FormattableString.Invariant($"{type} {length}") };
            return null;
        }
        if (type == "float32")
        {
            result = result with { Kind = FieldKind.Float, ItemSize = 4, IsSigned = true };
            return null;
        }
        if (Integer(type, out var size, out var isSigned))
        {
            result = result with { ItemSize = size, IsSigned = isSigned };
            return null;
        }
        if (BitsOfC(type) is { } bits)
        {
            result = result with { Kind = FieldKind.CompilerDependent, Bits = ImmutableArray.Create(new BitRun(before.Name, before.Place, bits)) };
            return null;
        }
        if (Array.IndexOf(CompilerTypes, type) >= 0)
        {
            result = result with { Kind = FieldKind.CompilerDependent };
            return null;
        }
        var bracket = type.IndexOf('[');
        return bracket > 0
            ? WrongType.Meant(
                scalar, $"`{type}` is not how several alike are written",
                $"{type.Substring(bracket + 1).TrimEnd(']')} x {type.Substring(0, bracket)}{scalar.Text.Substring(type.Length)}")
            : ValueNotInList.At(scalar.Place, type.Length == 0 ? scalar.Text : type, "a type", Types);
    }

    // `uint8:3`, as C writes a bit-field.
    private static int? BitsOfC(string type)
    {
        var colon = type.IndexOf(':');
        var holder = colon < 0 ? "" : type.Substring(0, colon);
        return (Integer(holder, out _, out _) || Array.IndexOf(CompilerTypes, holder) >= 0) && Count(type.Substring(colon + 1), out var bits) && bits <= 32 ? bits : null;
    }

    private static Field? ReadMap(LocatedScalar name, LocatedMap map, List<Finding> findings)
    {
        var result = new Field(name.Text, name.Place, map.Place, FieldKind.Bits);
        if (map.Entries is not [var (key, value)])
        {
            findings.Add(WrongType.At(map.Place, "a map of several keys", "`{ bits: [...] }` or `{ uint8: [...] }`"));
            return null;
        }
        result = result with { TypePlace = key.Place };
        if (key.Text == "bits")
            return Bits(result, value, findings);
        if (key.Text is "enum")
            return result with { Kind = FieldKind.CompilerDependent, TypeName = "enum" };
        if (!Integer(key.Text, out var size, out var isSigned) || isSigned)
        {
            findings.Add(ValueNotInList.At(key.Place, key.Text, "a form of field", ["bits", "uint8", "uint16", "uint32"]));
            return null;
        }
        var choices = Names(value, findings);
        return choices.IsDefaultOrEmpty
            ? null
            : result with { Kind = FieldKind.Choice, TypeName = key.Text, ItemSize = size, Choices = choices };
    }

    private static Field? Bits(Field result, LocatedValue value, List<Finding> findings)
    {
        var runs = ImmutableArray.CreateBuilder<BitRun>();
        if (value is LocatedMap widths)
        {
            foreach (var (key, width) in widths.Entries)
            {
                if (Scalars.NewName.Read(key, out _) is { } fault)
                    findings.Add(fault);
                if (width is LocatedScalar scalar && Count(scalar.Text, out var bits) && bits <= 32)
                    runs.Add(new(key.Text, key.Place, bits));
                else
                    findings.Add(WrongType.At(width.Place, width is LocatedScalar s ? $"`{s.Text}`" : width.Kind, "a number of bits, 1 to 32"));
            }
        }
        else
        {
            var items = value is LocatedList list ? list.Items : [value];
            foreach (var item in items)
            {
                if (item is LocatedScalar scalar && Scalars.NewName.Read(scalar, out _) is not { } fault)
                    runs.Add(new(scalar.Text, scalar.Place, 1));
                else
                    findings.Add(item is LocatedScalar named ? Scalars.NewName.Read(named, out _)! : WrongType.At(item.Place, item.Kind, "a name"));
            }
        }
        var total = runs.Sum(run => run.Width);
        if (total is > 0 and <= 32)
            return result with { Bits = runs.ToImmutable(), TypeName = "bits", ItemSize = (total + 7) / 8 };
        if (total > 32)
            findings.Add(WrongType.At(value.Place, FormattableString.Invariant($"a field of {total} bits"), "at most 32 bits in one field"));
        return null;
    }

    private static ImmutableArray<string> Names(LocatedValue value, List<Finding> findings)
    {
        var names = ImmutableArray.CreateBuilder<string>();
        foreach (var item in value is LocatedList list ? list.Items : [value])
        {
            if (item is not LocatedScalar scalar)
                findings.Add(WrongType.At(item.Place, item.Kind, "a name"));
            else if (Scalars.NewName.Read(scalar, out var name) is { } fault)
                findings.Add(fault);
            else
                names.Add(name);
        }
        return names.ToImmutable();
    }

    private static bool Integer(string type, out int size, out bool isSigned)
    {
        isSigned = type.StartsWith("int", StringComparison.Ordinal);
        size = type switch
        {
            "int8" or "uint8" => 1,
            "int16" or "uint16" => 2,
            "int32" or "uint32" => 4,
            "int64" or "uint64" => 8,
            _ => 0,
        };
        return size > 0;
    }

    private static bool Range(string text, out (decimal Low, decimal High) range)
    {
        range = default;
        var dots = text.IndexOf("..", StringComparison.Ordinal);
        return dots > 0 && Quantity.TryNumber(text.Substring(0, dots), out range.Low)
            && Quantity.TryNumber(text.Substring(dots + 2), out range.High) && range.Low <= range.High;
    }

    private static bool Count(string? text, out int count)
    {
        count = 0;
        return text is { Length: > 0 and <= 4 } && int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out count) && count > 0;
    }
}
