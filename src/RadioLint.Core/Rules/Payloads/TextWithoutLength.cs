using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Payloads;

/// <summary>RL6006: a text object in a packet, of which only its address would be sent.</summary>
public sealed class TextWithoutLength() : Rule(new(
    "RL6006", Severity.Error, "Text without a length",
    "a string object holds a pointer to its characters (derived): an address is not data", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var (payload, field) in CompilerTypes.In(network, "string"))
        {
            yield return At(
                field.TypePlace,
                $"`{field.Name}` of `{payload.Name}` is `string`: its characters are elsewhere, only their address would be sent",
                $"use a fixed length, such as `text 12`");
        }
    }
}
