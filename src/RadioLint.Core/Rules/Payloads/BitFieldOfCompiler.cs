using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6005: a bit-field of C, whose place in its byte the compiler chooses.</summary>
public sealed class BitFieldOfCompiler() : Rule(new(
    "RL6005", Severity.Error, "Bit-field whose place the compiler chooses",
    "order, and whether one spans two units, are the compiler's choice (ISO/IEC 9899:2011 6.7.2.1); the manifest lays out `{ bits: ... }` alone, the first name in the lowest bits", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var payload in network.Payloads)
        {
            foreach (var field in payload.Fields.Where(field => field.Kind is FieldKind.CompilerDependent && !field.Bits.IsEmpty))
            {
                var width = FormattableString.Invariant($"{field.Bits[0].Width}");
                var text = KeyEdit.Map(payload.FieldsPlace, ("bits", KeyEdit.Map(payload.FieldsPlace, (field.Name, width))));
                yield return At(
                    field.TypePlace,
                    $"`{field.Name}` of `{payload.Name}` is `{field.TypeName}`, whose place in its byte the compiler chooses",
                    $"state where the bits stand, those of one byte in one field: `{{ bits: {{ {field.Name}: {width} }} }}`",
                    // More words behind the type, such as a role, have no place among bits.
                    field.ValuePlace.Text.Trim('"', '\'') == field.TypeName ? [Offer("State the bits", new[] { new Edit(field.ValuePlace, text) })] : []);
            }
        }
    }
}
