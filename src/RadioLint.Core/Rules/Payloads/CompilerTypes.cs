using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Payloads;

/// <summary>Fields whose size or meaning a compiler decides, and the type that says the same on every machine.</summary>
internal static class CompilerTypes
{
    private static readonly (string Type, decimal Low, decimal High)[] Integers =
    [
        ("uint8", 0, byte.MaxValue), ("int8", sbyte.MinValue, sbyte.MaxValue), ("uint16", 0, ushort.MaxValue), ("int16", short.MinValue, short.MaxValue),
        ("uint32", 0, uint.MaxValue), ("int32", int.MinValue, int.MaxValue), ("uint64", 0, ulong.MaxValue), ("int64", long.MinValue, long.MaxValue),
    ];

    public static IEnumerable<(Payload Payload, Field Field)> In(Network network, params string[] types) =>
        from payload in network.Payloads
        from field in payload.Fields
        where field.Kind is FieldKind.CompilerDependent && types.Contains(field.TypeName, StringComparer.Ordinal)
        select (payload, field);

    /// <summary>The narrowest integer that holds both bounds, signed or not as asked, the other kind where it must be; null when none does.</summary>
    public static string? Narrowest(decimal low, decimal high, bool isSigned) => Integers
        .Where(type => type.Low <= low && high <= type.High)
        .OrderBy(type => low >= 0 && (type.Low < 0) != isSigned ? 1 : 0)
        .Select(type => type.Type).FirstOrDefault();

    /// <summary>The lowest and highest count of an integer of so many bytes.</summary>
    public static (decimal Low, decimal High) Reach(Field field)
    {
        var (_, low, high) = Integers.First(type => (type.Low < 0) == field.IsSigned && type.Type.EndsWith(FormattableString.Invariant($"int{field.ItemSize * 8}"), StringComparison.Ordinal));
        return (low, high);
    }

    /// <summary>Counts of a value: rounded half away from zero, as writing does; null when far beyond any integer.</summary>
    public static decimal? Counts(decimal value, decimal scale) =>
        scale < 1 && Math.Abs(value) > decimal.MaxValue * scale ? null : Math.Round(value / scale, MidpointRounding.AwayFromZero);
}
