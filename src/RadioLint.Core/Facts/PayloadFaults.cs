using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules.Hygiene;

namespace RadioLint.Facts;

/// <summary>Why no program can pack or read a payload although its manifest may have passed with rules turned down.</summary>
public static class PayloadFaults
{
    private const int PacketRoom = 32;

    /// <summary>What no struct or packet can hold.</summary>
    /// <param name="length">Bytes on air.</param>
    public static IEnumerable<Finding> Of(Payload payload, int length)
    {
        if (!payload.HasKnownSize || payload.Fields.IsEmpty)
        {
            yield return WrongType.At(payload.Place, $"payload `{payload.Name}`, whose size is not known,", "a payload of fields with a stated width");
            yield break;
        }
        if (payload.Order is { Value.IsOpen: true } order)
            yield return WrongType.Because(order.Place, $"the order of the fields of `{payload.Name}` is still open", "run `fill`, or name the fields in their order");
        if (length > PacketRoom || payload.Size > length)
        {
            yield return WrongType.At(
                payload.Place, FormattableString.Invariant($"payload `{payload.Name}` of {payload.Size} bytes"),
                FormattableString.Invariant($"at most {Math.Min(PacketRoom, Math.Max(1, length))} bytes in one packet"));
        }
        foreach (var field in payload.Fields)
        {
            if (OfField(field) is { } fault)
                yield return fault;
        }
    }

    private static Finding? OfField(Field field)
    {
        var isNumber = field.Kind is FieldKind.Integer or FieldKind.Float or FieldKind.Choice;
        if (!isNumber && (field.Constant is not null || field.Range is not null || field.Scale != 1))
            return WrongType.At(field.TypePlace, $"a value, range or scale of `{field.TypeName}`", "one of a number");
        if (field.Kind is not FieldKind.Integer)
            return null;
        if (field.Constant is { } constant && (Counts.Exactly(constant, field.Scale) is not { } count || !Holds(field, count)))
            return WrongType.At(field.TypePlace, $"{What(field)} with the value {Shown(constant)}", $"a value that `{field.TypeName}` holds in whole counts");
        if (field.Range is { } range && FieldLimits.OfRange(field) is null)
            return WrongType.At(field.TypePlace, $"{What(field)} in {Shown(range.Low)} to {Shown(range.High)}", $"a range with a count that `{field.TypeName}` holds");
        return null;
    }

    private static bool Holds(Field field, System.Numerics.BigInteger count)
    {
        var (low, high) = FieldLimits.OfType(field);
        return count >= low && count <= high;
    }

    private static string What(Field field) => $"`{field.Name}`";

    private static string Shown(decimal value) => FormattableString.Invariant($"{value}");
}
