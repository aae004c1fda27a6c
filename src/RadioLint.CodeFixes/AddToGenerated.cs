using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeFixes;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using RadioLint.Rules.HostCode;

namespace RadioLint.CodeFixes;

/// <summary>RL9022: says that the type adds to the generated one. Only for the network's class and `Payloads`, which the generated code declares partial.</summary>
[ExportCodeFixProvider(LanguageNames.CSharp)]
public sealed class AddToGenerated : HostFix
{
    public override ImmutableArray<string> FixableDiagnosticIds { get; } = ImmutableArray.Create(HostRules.NameClash.Id);

    private protected override IEnumerable<Offer> Offers(Found found)
    {
        if (found.Root.FindNode(found.Diagnostic.Location.SourceSpan) is not TypeDeclarationSyntax declared
            || found.Model.GetDeclaredSymbol(declared, found.Cancel) is not { } type
            || !type.DeclaringSyntaxReferences.Any(other => other.GetSyntax(found.Cancel) is TypeDeclarationSyntax generated && generated != declared && generated.Modifiers.Any(SyntaxKind.PartialKeyword)))
        {
            yield break;
        }
        var keyword = SyntaxFactory.Token(SyntaxKind.PartialKeyword).WithTrailingTrivia(SyntaxFactory.Space);
        var now = declared.Modifiers.Count > 0
            ? declared.AddModifiers(keyword)
            : declared.WithKeyword(declared.Keyword.WithLeadingTrivia()).WithModifiers(SyntaxFactory.TokenList(keyword.WithLeadingTrivia(declared.Keyword.LeadingTrivia)));
        yield return new("Declare it `partial`", found.Root.ReplaceNode(declared, now));
    }
}
