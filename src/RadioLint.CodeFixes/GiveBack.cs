using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeFixes;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using RadioLint.Rules.HostCode;

namespace RadioLint.CodeFixes;

/// <summary>RL9015: declares the device with `using`.</summary>
[ExportCodeFixProvider(LanguageNames.CSharp)]
public sealed class GiveBack : HostFix
{
    public override ImmutableArray<string> FixableDiagnosticIds { get; } = ImmutableArray.Create(HostRules.NotDisposed.Id);

    private protected override IEnumerable<Offer> Offers(Found found)
    {
        // Not directly in a section of a switch, where no `using` may stand.
        if (DeclaredBy(found.Marked) is not { Parent: BlockSyntax or GlobalStatementSyntax } declaration
            || declaration.UsingKeyword.RawKind != 0
            || declaration.Declaration.Variables is not [{ } variable]
            || found.Model.GetDeclaredSymbol(variable, found.Cancel) is not { } local
            || RunsLater(declaration.Parent!, local, found.Model))
        {
            yield break;
        }
        var first = declaration.GetFirstToken();
        var plain = declaration.ReplaceToken(first, first.WithLeadingTrivia());
        var now = plain.WithUsingKeyword(SyntaxFactory.Token(first.LeadingTrivia, SyntaxKind.UsingKeyword, SyntaxFactory.TriviaList(SyntaxFactory.Space)));
        yield return new("Declare it with `using`", found.Root.ReplaceNode(declaration, now));
    }

    // What is opened is the value of the variable itself, or one of two.
    private static LocalDeclarationStatementSyntax? DeclaredBy(SyntaxNode opened)
    {
        var outer = opened.Parent;
        while (outer is ParenthesizedExpressionSyntax or CastExpressionSyntax or ConditionalExpressionSyntax or PostfixUnaryExpressionSyntax)
            outer = outer.Parent;
        return outer is EqualsValueClauseSyntax { Parent: VariableDeclaratorSyntax { Parent.Parent: LocalDeclarationStatementSyntax declaration } } ? declaration : null;
    }

    // A lambda may still run when the block has been left, and the device with it.
    private static bool RunsLater(SyntaxNode block, ISymbol local, SemanticModel model)
    {
        var whole = block is GlobalStatementSyntax ? block.Parent! : block;
        return whole.DescendantNodes().Where(node => node is AnonymousFunctionExpressionSyntax or LocalFunctionStatementSyntax)
            .SelectMany(function => function.DescendantNodes().OfType<IdentifierNameSyntax>())
            .Any(name => name.Identifier.ValueText == local.Name && SymbolEqualityComparer.Default.Equals(model.GetSymbolInfo(name).Symbol, local));
    }
}
