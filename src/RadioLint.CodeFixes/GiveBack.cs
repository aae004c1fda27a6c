using System.Collections.Immutable;
using System.Composition;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeFixes;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using RadioLint.Rules.HostCode;

namespace RadioLint.CodeFixes;

/// <summary>RL9015: declares the device with `using`.</summary>
[ExportCodeFixProvider(LanguageNames.CSharp), Shared]
public sealed class GiveBack : HostFix
{
    public override ImmutableArray<string> FixableDiagnosticIds { get; } = ImmutableArray.Create(HostRules.NotDisposed.Id);

    protected override Task OfferAsync(CodeFixContext context, SyntaxNode root, Diagnostic diagnostic)
    {
        // Not directly in a section of a switch, where no `using` may stand; nor for a variable that is assigned anew.
        if (root.FindNode(diagnostic.Location.SourceSpan, getInnermostNodeForTie: true).FirstAncestorOrSelf<LocalDeclarationStatementSyntax>() is { Parent: BlockSyntax or GlobalStatementSyntax } declaration
            && declaration.UsingKeyword.RawKind == 0
            && declaration.Declaration.Variables.Count == 1
            && !IsAssignedAgain(declaration, declaration.Declaration.Variables[0].Identifier.Text))
        {
            var first = declaration.GetFirstToken();
            var plain = declaration.ReplaceToken(first, first.WithLeadingTrivia());
            var now = plain.WithUsingKeyword(SyntaxFactory.Token(first.LeadingTrivia, SyntaxKind.UsingKeyword, SyntaxFactory.TriviaList(SyntaxFactory.Space)));
            Offer(context, root, diagnostic, "Declare it with `using`", declaration, now);
        }
        return Task.CompletedTask;
    }

    private static bool IsAssignedAgain(LocalDeclarationStatementSyntax declaration, string name) => declaration.Parent!.DescendantNodes().Any(node => node switch
    {
        AssignmentExpressionSyntax assignment => assignment.Left is IdentifierNameSyntax left && left.Identifier.Text == name,
        ArgumentSyntax { RefKindKeyword.RawKind: not 0 } argument => argument.Expression is IdentifierNameSyntax passed && passed.Identifier.Text == name,
        _ => false,
    });
}
