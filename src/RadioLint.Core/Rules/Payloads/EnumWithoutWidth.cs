using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6003: named values whose width the compiler chooses.</summary>
public sealed class EnumWithoutWidth() : Rule(new(
    "RL6003", Severity.Error, "Enumeration without a width",
    "ISO/IEC 9899:2011 6.7.2.2 leaves the type to the compiler; it follows the ABI and options such as -fshort-enums (GCC manual, Structures, unions, enumerations and bit-fields)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var (payload, field) in CompilerTypes.In(network, "enum"))
        {
            yield return At(
                field.TypePlace,
                $"`{field.Name}` of `{payload.Name}` is an `enum`, which is 1, 2 or 4 bytes as the compiler likes",
                $"state the width: `{{ uint8: [...] }}`",
                Offer("State 8 bits", field.TypePlace, "uint8"));
        }
    }
}
