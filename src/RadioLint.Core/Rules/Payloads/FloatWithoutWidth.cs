using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6002: a floating-point type that does not state its width.</summary>
public sealed class FloatWithoutWidth() : Rule(new(
    "RL6002", Severity.Error, "Floating-point type without a width",
    "`double` is 4 bytes on the AVR unless asked otherwise and 8 elsewhere (the compilers' manuals, data types); the manifest lays out `float32` alone", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var (payload, field) in CompilerTypes.In(network, "double", "float"))
        {
            yield return At(
                field.TypePlace,
                $"`{field.Name}` of `{payload.Name}` is `{field.TypeName}`, which {(field.TypeName == "double" ? "is 4 bytes on 8-bit cores and 8 elsewhere" : "states no width; `float32` is 4 bytes everywhere")}",
                $"use `float32`, or an integer with a scale such as `int16 0.01`",
                Offer("Use float32", field.TypePlace, "float32"));
        }
    }
}
