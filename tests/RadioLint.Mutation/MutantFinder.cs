using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace RadioLint.Mutation;

/// <summary>Lists the mutants of a file in the order of their places.</summary>
internal static class MutantFinder
{
    private static readonly string[] Folders = ["Power/", "Radio/", "Rules/", "Spectrum/"];

    public static List<Mutant> Find(CoreSources core)
    {
        var mutants = new List<Mutant>();
        foreach (var (file, tree) in core.Trees.Where(tree => Folders.Any(folder => tree.Key.StartsWith(folder, StringComparison.Ordinal))))
        {
            var text = tree.GetText();
            foreach (var node in tree.GetRoot().DescendantNodes())
            {
                if (MemberOf(node) is not { } member)
                    continue;
                foreach (var (kind, at, replacement) in Operators.At(node))
                {
                    var start = text.Lines.GetLinePosition(at.SpanStart);
                    mutants.Add(new(mutants.Count + 1, file, kind, at.Span, replacement)
                    {
                        Member = member,
                        Place = (start.Line + 1, start.Character + 1),
                        Before = at.ToString(),
                    });
                }
            }
        }
        return mutants;
    }

    /// <summary>The member whose code holds a node. Null for constants, attributes and default values: the compiler needs them before anything runs.</summary>
    private static MemberDeclarationSyntax? MemberOf(SyntaxNode node)
    {
        foreach (var outer in node.AncestorsAndSelf())
        {
            switch (outer)
            {
                case AttributeListSyntax or ParameterSyntax { Default: not null } or EnumMemberDeclarationSyntax:
                    return null;
                case FieldDeclarationSyntax field:
                    return field.Modifiers.Any(SyntaxKind.ConstKeyword) || node == field ? null : field;
                case PrimaryConstructorBaseTypeSyntax list:
                    return node.FirstAncestorOrSelf<ArgumentListSyntax>() is null ? null : (MemberDeclarationSyntax)list.Parent!.Parent!;
                case BaseTypeDeclarationSyntax:
                    return null;
                case MemberDeclarationSyntax member:
                    return node == member ? null : member;
            }
        }
        return null;
    }
}
