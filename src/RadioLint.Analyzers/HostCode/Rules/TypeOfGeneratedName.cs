using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode.Rules;

/// <summary>RL9022: a type of the program's own has the name of a generated one and does not say that it adds to it.</summary>
internal static class TypeOfGeneratedName
{
    public static IEnumerable<HostFinding> Check(Host host, INamedTypeSymbol type)
    {
        if (!host.IsGenerated(type) || type.DeclaringSyntaxReferences.Length < 2)
            yield break;
        foreach (var reference in type.DeclaringSyntaxReferences)
        {
            if (reference.GetSyntax() is not BaseTypeDeclarationSyntax declared || declared.Modifiers.Any(SyntaxKind.PartialKeyword) || IsWrittenByUs(reference.SyntaxTree))
                continue;
            yield return new(
                HostRules.NameClash, declared.Identifier.GetLocation(),
                $"`{type.Name}` is also generated from {host.Networks[0].Path.Substring(host.Networks[0].Path.LastIndexOf('/') + 1)}; declare it `partial` to add to it, or give it another name");
        }
    }

    private static bool IsWrittenByUs(SyntaxTree tree) => tree.FilePath.EndsWith(".g.cs", StringComparison.OrdinalIgnoreCase);
}
