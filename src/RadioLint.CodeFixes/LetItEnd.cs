using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CodeFixes;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using RadioLint.Rules.HostCode;

namespace RadioLint.CodeFixes;

/// <summary>RL9019: an endless loop looks at the CancellationToken that its method has been given.</summary>
[ExportCodeFixProvider(LanguageNames.CSharp)]
public sealed class LetItEnd : HostFix
{
    public override ImmutableArray<string> FixableDiagnosticIds { get; } = ImmutableArray.Create(HostRules.EndlessReceiving.Id);

    private protected override IEnumerable<Offer> Offers(Found found)
    {
        if (found.Root.FindToken(found.Diagnostic.Location.SourceSpan.Start).Parent is not StatementSyntax loop)
            yield break;
        // One token, or it would be a guess which.
        var tokens = found.Model.LookupSymbols(loop.SpanStart).OfType<IParameterSymbol>().Where(parameter => parameter.Type.Name == "CancellationToken").ToList();
        if (tokens.Count != 1)
            yield break;
        var condition = SyntaxFactory.ParseExpression($"!{Escaped(tokens[0].Name)}.IsCancellationRequested");
        SyntaxNode? now = loop switch
        {
            WhileStatementSyntax endless => endless.WithCondition(condition.WithTriviaFrom(endless.Condition)),
            ForStatementSyntax endless => endless.WithCondition(condition.WithTriviaFrom(endless.Condition ?? condition).WithLeadingTrivia(SyntaxFactory.Space)),
            _ => null,
        };
        if (now is not null)
            yield return new($"Look at `{tokens[0].Name}`", found.Root.ReplaceNode(loop, now));
    }

    private static string Escaped(string name) => SyntaxFacts.GetKeywordKind(name) == SyntaxKind.None ? name : "@" + name;
}
