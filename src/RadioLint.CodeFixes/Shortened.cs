using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;

namespace RadioLint.CodeFixes;

/// <summary>C# whose names are given in full, each made as short as it still means the same at its place.</summary>
internal static class Shortened
{
    /// <summary>The text with short names.</summary>
    /// <param name="place">Where in the file it shall stand.</param>
    public static string At(string text, SemanticModel model, int place) => FullName.Replace(text, name => Shortest(name.Value, model, place));

    private static string Shortest(string name, SemanticModel model, int place)
    {
        if (Meaning(name, model, place) is not { } meant)
            return name;
        var parts = name.Split('.');
        for (var from = parts.Length - 1; from >= 0; from--)
        {
            var shorter = string.Join(".", parts.Skip(from)).Replace("global::", "");
            if (SymbolEqualityComparer.Default.Equals(Meaning(shorter, model, place), meant))
                return shorter;
        }
        return name;
    }

    // Of a method without its arguments, one of its overloads stands for all.
    private static ISymbol? Meaning(string name, SemanticModel model, int place)
    {
        var info = model.GetSpeculativeSymbolInfo(place, SyntaxFactory.ParseExpression(name), SpeculativeBindingOption.BindAsExpression);
        return info.Symbol ?? info.CandidateSymbols.FirstOrDefault();
    }

    private static readonly Regex FullName = new(@"global::[\w.]+", RegexOptions.CultureInvariant);
}
