using System.Collections.Immutable;
using System.Composition;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeFixes;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using RadioLint.Rules.HostCode;

namespace RadioLint.CodeFixes;

/// <summary>RL9022: says that the type adds to the generated one. Only for the network's class and `Payloads`, which the generated code declares partial.</summary>
[ExportCodeFixProvider(LanguageNames.CSharp), Shared]
public sealed class AddToGenerated : HostFix
{
    public override ImmutableArray<string> FixableDiagnosticIds { get; } = ImmutableArray.Create(HostRules.NameClash.Id);

    protected override async Task OfferAsync(CodeFixContext context, SyntaxNode root, Diagnostic diagnostic)
    {
        if (root.FindNode(diagnostic.Location.SourceSpan) is not TypeDeclarationSyntax declared
            || await context.Document.GetSemanticModelAsync(context.CancellationToken).ConfigureAwait(false) is not { } model
            || model.GetDeclaredSymbol(declared, context.CancellationToken) is not { } type
            || !type.DeclaringSyntaxReferences.Any(other => other.GetSyntax(context.CancellationToken) is TypeDeclarationSyntax generated && generated != declared && generated.Modifiers.Any(SyntaxKind.PartialKeyword)))
        {
            return;
        }
        var keyword = SyntaxFactory.Token(SyntaxKind.PartialKeyword).WithTrailingTrivia(SyntaxFactory.Space);
        var now = declared.Modifiers.Count > 0
            ? declared.AddModifiers(keyword)
            : declared.WithKeyword(declared.Keyword.WithLeadingTrivia()).WithModifiers(SyntaxFactory.TokenList(keyword.WithLeadingTrivia(declared.Keyword.LeadingTrivia)));
        Offer(context, root, diagnostic, "Declare it `partial`", declared, now);
    }
}
