using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeFixes;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Text;
using RadioLint.Rules.HostCode;

namespace RadioLint.CodeFixes;

/// <summary>RL9010: leaves the method, or goes on with the loop, where TryRead fails.</summary>
[ExportCodeFixProvider(LanguageNames.CSharp)]
public sealed class CheckBeforeUse : HostFix
{
    public override ImmutableArray<string> FixableDiagnosticIds { get; } = ImmutableArray.Create(HostRules.DecodedUnchecked.Id);

    private protected override IEnumerable<Offer> Offers(Found found)
    {
        // Only where the result of TryRead is thrown away; by hand decoded fields have no such call.
        if (found.Marked is InvocationExpressionSyntax call
            && call.FirstAncestorOrSelf<ExpressionStatementSyntax>() is { Parent: BlockSyntax } statement
            && (statement.Expression == call || statement.Expression is AssignmentExpressionSyntax { Left: IdentifierNameSyntax { Identifier.Text: "_" } } throwing && throwing.Right == call)
            && WayOut.Of(statement, found.Model) is { } leave)
        {
            var text = found.Text;
            // Comments around the call stay, and an `_ =` goes.
            var before = text.ToString(TextSpan.FromBounds((statement.Expression as AssignmentExpressionSyntax)?.OperatorToken.Span.End ?? statement.SpanStart, call.SpanStart)).TrimStart();
            var after = text.ToString(TextSpan.FromBounds(call.Span.End, statement.SemicolonToken.SpanStart));
            yield return new(WayOut.Title(leave), found.With(Unless.Fails(text, statement, $"{before}{call}{after}", leave)));
        }
    }
}
