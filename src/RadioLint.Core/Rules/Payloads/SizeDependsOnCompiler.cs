using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6001: a whole number whose size the compiler decides.</summary>
public sealed class SizeDependsOnCompiler() : Rule(new(
    "RL6001", Severity.Error, "Type whose size depends on the compiler",
    "ISO/IEC 9899:2011 5.2.4.2.1 gives least ranges only; `int` is 2 bytes on the AVR and 4 on 32-bit cores, `long` 4 or 8 (the compilers' manuals, data types)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var (payload, field) in CompilerTypes.In(network, "int", "unsigned", "long", "short"))
        {
            var right = Right(field);
            yield return At(
                field.TypePlace,
                $"`{field.Name}` of `{payload.Name}` is `{field.TypeName}`, which is {Sizes(field.TypeName)}",
                $"use a type that states its width, such as `{right}`",
                Offer($"Use {right}", field.TypePlace, right));
        }
    }

    private static string Sizes(string type) => type switch
    {
        "long" => "4 bytes on small cores and 8 on many hosts",
        "short" => "2 bytes in practice, though the language only promises at least 2",
        _ => "2 bytes on 8-bit cores and 4 on 32-bit ones",
    };

    // What its declared range needs; else what holds everything that any of the compilers puts into it, as far as small cores go.
    private static string Right(Field field)
    {
        var isSigned = field.TypeName != "unsigned";
        return field.Range is { } range && CompilerTypes.Counts(range.Low, field.Scale) is { } low && CompilerTypes.Counts(range.High, field.Scale) is { } high
            && CompilerTypes.Narrowest(low, high, isSigned) is { } narrowest
                ? narrowest
                : field.TypeName switch { "short" => "int16", "unsigned" => "uint32", _ => "int32" };
    }
}
