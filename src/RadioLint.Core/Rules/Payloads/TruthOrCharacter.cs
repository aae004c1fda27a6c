using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6004: `bool` or plain `char` in a packet.</summary>
public sealed class TruthOrCharacter() : Rule(new(
    "RL6004", Severity.Error, "`bool` or plain `char`",
    "whether plain `char` is signed, and the size of _Bool, are the compiler's choice (ISO/IEC 9899:2011 6.2.5); the manifest lays out neither", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var (payload, field) in CompilerTypes.In(network, "bool", "char"))
        {
            yield return At(
                field.TypePlace,
                $"`{field.Name}` of `{payload.Name}` is `{field.TypeName}`, {(field.TypeName == "bool" ? "whose size and true value" : "whose sign")} the compiler decides",
                field.TypeName == "bool" ? (FormattableString)$"use `uint8`, or gather flags in `{{ bits: [...] }}`" : $"use `uint8` for a number, `text 1` for a character",
                Offer("Use uint8", field.TypePlace, "uint8"));
        }
    }
}
