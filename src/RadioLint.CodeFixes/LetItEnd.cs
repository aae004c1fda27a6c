using System.Collections.Immutable;
using System.Composition;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeFixes;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using RadioLint.Rules.HostCode;

namespace RadioLint.CodeFixes;

/// <summary>RL9019: an endless loop looks at the CancellationToken that its method has been given.</summary>
[ExportCodeFixProvider(LanguageNames.CSharp), Shared]
public sealed class LetItEnd : HostFix
{
    public override ImmutableArray<string> FixableDiagnosticIds { get; } = ImmutableArray.Create(HostRules.EndlessReceiving.Id);

    protected override async Task OfferAsync(CodeFixContext context, SyntaxNode root, Diagnostic diagnostic)
    {
        if (root.FindToken(diagnostic.Location.SourceSpan.Start).Parent is not StatementSyntax loop
            || await context.Document.GetSemanticModelAsync(context.CancellationToken).ConfigureAwait(false) is not { } model)
        {
            return;
        }
        // One token, or it would be a guess which.
        var tokens = model.LookupSymbols(loop.SpanStart).OfType<IParameterSymbol>().Where(parameter => parameter.Type.Name == "CancellationToken").ToList();
        if (tokens.Count != 1)
            return;
        var condition = SyntaxFactory.ParseExpression($"!{tokens[0].Name}.IsCancellationRequested");
        SyntaxNode? now = loop switch
        {
            WhileStatementSyntax endless => endless.WithCondition(condition),
            ForStatementSyntax endless => endless.WithCondition(condition.WithTriviaFrom(endless.Condition ?? condition).WithLeadingTrivia(SyntaxFactory.Space)),
            _ => null,
        };
        if (now is not null)
            Offer(context, root, diagnostic, $"Look at `{tokens[0].Name}`", loop, now);
    }
}
