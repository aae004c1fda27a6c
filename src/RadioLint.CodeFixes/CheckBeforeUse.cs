using System.Collections.Immutable;
using System.Composition;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeFixes;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using RadioLint.Rules.HostCode;

namespace RadioLint.CodeFixes;

/// <summary>RL9010: leaves the method, or goes on with the loop, where TryRead fails.</summary>
[ExportCodeFixProvider(LanguageNames.CSharp), Shared]
public sealed class CheckBeforeUse : HostFix
{
    public override ImmutableArray<string> FixableDiagnosticIds { get; } = ImmutableArray.Create(HostRules.DecodedUnchecked.Id);

    protected override Task OfferAsync(CodeFixContext context, SyntaxNode root, Diagnostic diagnostic)
    {
        // Only where the result of TryRead is thrown away; by hand decoded fields have no such call.
        if (root.FindNode(diagnostic.Location.SourceSpan, getInnermostNodeForTie: true) is InvocationExpressionSyntax call
            && call.FirstAncestorOrSelf<ExpressionStatementSyntax>() is { Parent: BlockSyntax } statement
            && (statement.Expression == call || statement.Expression is AssignmentExpressionSyntax { Left: IdentifierNameSyntax { Identifier.Text: "_" } } throwing && throwing.Right == call)
            && WayOut.Of(statement) is { } leave)
        {
            Offer(context, root, diagnostic, WayOut.Title(leave), statement, WayOut.Unless(call, leave).WithTriviaFrom(statement));
        }
        return Task.CompletedTask;
    }
}
