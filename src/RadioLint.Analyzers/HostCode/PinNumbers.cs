using Microsoft.CodeAnalysis;

namespace RadioLint.Analyzers.HostCode;

/// <summary>The numbers of the radio's pins on the computer that runs the program.</summary>
internal static class PinNumbers
{
    /// <summary>The constants of the computer's own nodes, with the signal that each belongs to.</summary>
    /// <param name="scheme">`Number` for GPIOs, `HeaderPin` for positions on the header.</param>
    public static IEnumerable<(string Signal, long Number, IFieldSymbol Constant)> Of(TypeCode code, string scheme)
    {
        foreach (var (_, node) in code.OwnNodes())
        {
            foreach (var field in node.GetTypeMembers("Pins").SelectMany(pins => pins.GetMembers()).OfType<IFieldSymbol>())
            {
                if (field.Name.EndsWith(scheme, StringComparison.Ordinal) && Operations.Whole(field.ConstantValue) is { } number)
                    yield return (field.Name.Substring(0, field.Name.Length - scheme.Length), number, field);
            }
        }
    }
}
