using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6106: a field that cannot hold all the values it is declared for.</summary>
public sealed class FieldTooSmall() : Rule(new(
    "RL6106", Severity.Error, "Field too small for its range",
    "counts from -2^(n-1) to 2^(n-1)-1 signed, 0 to 2^n-1 unsigned (two's complement of the exact-width types, ISO/IEC 9899:2011 7.20.1.1)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var payload in network.Payloads)
        {
            foreach (var field in payload.Fields)
            {
                if (field is { Kind: FieldKind.Integer, Range: { } range })
                {
                    if (Judge(payload, field, range.Low, range.High, "its range") is { } finding)
                        yield return finding;
                }
                else if (field is { Kind: FieldKind.Integer, Constant: { } constant } && Judge(payload, field, constant, constant, "its value") is { } finding)
                {
                    yield return finding;
                }
                else if (field.Kind is FieldKind.Choice && field.Choices.Length > Math.Pow(2, 8 * field.ItemSize))
                {
                    yield return At(
                        field.TypePlace, $"`{field.Name}` of `{payload.Name}` names {field.Choices.Length} values, `{field.TypeName}` has 256",
                        $"use `uint16`");
                }
            }
        }
    }

    private Finding? Judge(Payload payload, Field field, decimal lowest, decimal highest, string what)
    {
        var (low, high) = (CompilerTypes.Counts(lowest, field.Scale), CompilerTypes.Counts(highest, field.Scale));
        var reach = CompilerTypes.Reach(field);
        if (low >= reach.Low && high <= reach.High)
            return null;
        var wider = low is { } from && high is { } to ? CompilerTypes.Narrowest(from, to, field.IsSigned) : null;
        var needs = low is null || high is null ? "more counts than any integer has" : low == high ? FormattableString.Invariant($"{low}") : FormattableString.Invariant($"{low} to {high}");
        var counts = field.Scale == 1 ? "" : FormattableString.Invariant($" in counts of {field.Scale}{(field.Unit is null ? "" : $" {field.Unit}")}");
        return At(
            field.TypePlace,
            $"`{field.Name}` of `{payload.Name}` needs {needs}{counts} for {what}, `{field.TypeName}` holds {reach.Low} to {reach.High}",
            wider is null ? (FormattableString)$"use a coarser scale; the range is in the unit, not in counts" : $"use `{wider}` or a coarser scale; the range is in the unit, not in counts",
            wider is null ? [] : [Offer(IsAsWide(wider, field) ? $"Use {wider}" : $"Use {wider}; packets get longer", field.TypePlace, wider)]);
    }

    private static bool IsAsWide(string type, Field field) => type.EndsWith(FormattableString.Invariant($"int{8 * field.ItemSize}"), StringComparison.Ordinal);
}
