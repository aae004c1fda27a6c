using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace RadioLint.CodeFixes;

/// <summary>How code is left where bytes turn out to be no payload: by the next turn of a loop, or by a return that needs no value.</summary>
internal static class WayOut
{
    public const string Continue = "continue";
    private const string Return = "return";

    public static string Title(string leave) =>
        leave == Continue ? "Go on with the loop where these bytes are no payload" : "Return where these bytes are no payload";

    /// <summary>Null where a value would have to be returned, which nobody can know, or the loop might turn for ever.</summary>
    public static string? Of(StatementSyntax statement, SemanticModel model)
    {
        for (var outer = statement.Parent; outer is not null; outer = outer.Parent)
        {
            switch (outer)
            {
                case CommonForEachStatementSyntax or ForStatementSyntax { Incrementors.Count: > 0 }:
                    return Continue;
                case ForStatementSyntax or WhileStatementSyntax or DoStatementSyntax:
                    return GoesOnLater(outer, statement, model) ? null : Continue;
                case MethodDeclarationSyntax method:
                    return ReturnsNothing(method.ReturnType, method.Modifiers) ? Return : null;
                case LocalFunctionStatementSyntax function:
                    return ReturnsNothing(function.ReturnType, function.Modifiers) ? Return : null;
                case ConstructorDeclarationSyntax:
                    return Return;
                case AnonymousFunctionExpressionSyntax or AccessorDeclarationSyntax:
                    return null;
                default:
                    break;
            }
        }
        return null;
    }

    // Whether something that the loop looks at before the statement, or in its condition, is changed only after it: a turn left early would not go on.
    private static bool GoesOnLater(SyntaxNode loop, StatementSyntax statement, SemanticModel model)
    {
        var changed = new HashSet<ISymbol>(SymbolEqualityComparer.Default);
        foreach (var node in loop.DescendantNodes().Where(node => node.SpanStart >= statement.Span.End))
        {
            var target = node switch
            {
                AssignmentExpressionSyntax assignment => assignment.Left,
                PrefixUnaryExpressionSyntax { RawKind: (int)SyntaxKind.PreIncrementExpression or (int)SyntaxKind.PreDecrementExpression } unary => unary.Operand,
                PostfixUnaryExpressionSyntax unary => unary.Operand,
                ArgumentSyntax { RefKindKeyword.RawKind: not 0 } argument => argument.Expression,
                _ => null,
            };
            if (target is not null && model.GetSymbolInfo(target).Symbol is { } symbol)
                changed.Add(symbol);
        }
        return changed.Count > 0 && loop.DescendantNodes().OfType<SimpleNameSyntax>()
            .Where(name => name.SpanStart < statement.SpanStart || name.Parent?.FirstAncestorOrSelf<StatementSyntax>() == loop)
            .Any(name => model.GetSymbolInfo(name).Symbol is { } symbol && changed.Contains(symbol));
    }

    private static bool ReturnsNothing(TypeSyntax type, SyntaxTokenList modifiers) =>
        type is PredefinedTypeSyntax { Keyword.RawKind: (int)SyntaxKind.VoidKeyword }
        || (modifiers.Any(SyntaxKind.AsyncKeyword) && type is IdentifierNameSyntax { Identifier.Text: "Task" or "ValueTask" });
}
