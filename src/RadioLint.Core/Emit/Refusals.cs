using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Rules;
using RadioLint.Rules.Hygiene;

namespace RadioLint.Emit;

/// <summary>Why a node cannot be written in C although its manifest may have passed with rules turned down.</summary>
internal static class Refusals
{
    private const int PacketRoom = 32;

    /// <summary>A node without a whole register image.</summary>
    public static IEnumerable<Finding> OfImage(Node node)
    {
        var open = new List<string>();
        if (node.Air.ChosenChannel is null)
            open.Add("channel");
        if (node.Air.ChosenRate is null)
            open.Add("rate");
        if (node.Part is null)
            open.Add("radio.part");
        if (node.Power is null)
            open.Add("power");
        yield return open.Count > 0
            ? StillOpen(node, open)
            : WrongType.At(node.NamePlace, $"`{node.Label}`, whose registers cannot all be given,", "a node with channel, rate, power and addresses that its radio can take");
    }

    private static Finding StillOpen(Node node, List<string> keys)
    {
        var words = string.Join(", ", keys.Select(key => $"`{key}`"));
        return new(
            Catalogue.Find("RL8305")!, node.NamePlace, $"node `{node.Label}` cannot be written: {words} {(keys.Count == 1 ? "has" : "have")} no value yet",
            "state a value, or run `fill`")
        {
            Severity = Severity.Error,
            Subject = node,
        };
    }

    /// <summary>What no struct or packet can hold.</summary>
    public static IEnumerable<Finding> OfPayload(Payload payload, int length)
    {
        if (!payload.HasKnownSize || payload.Fields.IsEmpty)
        {
            yield return WrongType.At(payload.Place, $"payload `{payload.Name}`, whose size is not known,", "a payload of fields with a stated width");
            yield break;
        }
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

    /// <summary>Names that the contract keeps for itself.</summary>
    public static IEnumerable<Finding> OfName(Node node)
    {
        var ident = C.Identifier(node.Name);
        if (ident == "radio" || ident.StartsWith("radio_", StringComparison.Ordinal))
            yield return UnusableName.Reserved(node.NamePlace, node.Name, "the emitted contract, which names all that it shares `radio_`");
    }
}
