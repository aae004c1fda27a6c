using System.Collections.Immutable;
using System.Composition;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeActions;
using Microsoft.CodeAnalysis.CodeFixes;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using RadioLint.Rules.HostCode;

namespace RadioLint.CodeFixes;

/// <summary>
/// RL9006: reads the generated payload instead of a struct of the program's own. Only where every use of the variable is a field that the generated
/// one has as a count of the same type, so that what is computed from it stays as it was meant.
/// </summary>
[ExportCodeFixProvider(LanguageNames.CSharp), Shared]
public sealed class UseGenerated : HostFix
{
    public override ImmutableArray<string> FixableDiagnosticIds { get; } = ImmutableArray.Create(HostRules.StructOfOtherLayout.Id);

    protected override async Task OfferAsync(CodeFixContext context, SyntaxNode root, Diagnostic diagnostic)
    {
        if (!diagnostic.Properties.TryGetValue(FixNotes.GeneratedType, out var name) || name is null
            || root.FindNode(diagnostic.Location.SourceSpan, getInnermostNodeForTie: true) is not InvocationExpressionSyntax { ArgumentList.Arguments: [{ } bytes] } call
            || call.FirstAncestorOrSelf<LocalDeclarationStatementSyntax>() is not { Parent: BlockSyntax block } declaration
            || declaration.Declaration.Variables is not [{ } variable] || variable.Initializer?.Value != call
            || WayOut.Of(declaration) is not { } leave
            || await context.Document.GetSemanticModelAsync(context.CancellationToken).ConfigureAwait(false) is not { } model
            || model.GetSpeculativeTypeInfo(call.SpanStart, SyntaxFactory.ParseTypeName(name), SpeculativeBindingOption.BindAsTypeOrNamespace).Type is not INamedTypeSymbol generated
            || model.GetDeclaredSymbol(variable, context.CancellationToken) is not { } local
            || Uses(model, block, local, generated) is not { } uses)
        {
            return;
        }
        var read = Code($"{name}.TryRead({bytes}, out var {variable.Identifier.Text})", model, call.SpanStart);
        var now = WayOut.Unless(read, leave).WithTriviaFrom(declaration);
        context.RegisterCodeFix(
            CodeAction.Create($"Read the generated {generated.Name}", _ => Task.FromResult(context.Document.WithSyntaxRoot(root.ReplaceNodes(
                uses.Keys.Append(declaration), (old, _) => old == declaration ? now : SyntaxFactory.IdentifierName(uses[old]).WithTriviaFrom(old)))), diagnostic.Id),
            diagnostic);
    }

    // Each field's name where it is used, with the name of the generated count; null where one has none, or the whole struct goes elsewhere.
    private static Dictionary<SyntaxNode, string>? Uses(SemanticModel model, BlockSyntax block, ISymbol local, INamedTypeSymbol generated)
    {
        var uses = new Dictionary<SyntaxNode, string>();
        foreach (var name in block.DescendantNodes().OfType<IdentifierNameSyntax>())
        {
            if (!SymbolEqualityComparer.Default.Equals(model.GetSymbolInfo(name).Symbol, local))
                continue;
            if (name.Parent is not MemberAccessExpressionSyntax { Name: IdentifierNameSyntax member } access || access.Expression != name || model.GetTypeInfo(access).Type is not { } type)
                return null;
            var known = new[] { member.Identifier.Text + "Raw", member.Identifier.Text }.FirstOrDefault(one => generated.GetMembers(one).FirstOrDefault() is IPropertySymbol property
                && SymbolEqualityComparer.Default.Equals(property.Type, type));
            if (known is null)
                return null;
            uses.Add(member, known);
        }
        return uses;
    }
}
