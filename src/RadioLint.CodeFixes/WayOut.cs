using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Formatting;

namespace RadioLint.CodeFixes;

/// <summary>How code is left where bytes turn out to be no payload: by the next turn of a loop, or by a return that needs no value.</summary>
internal static class WayOut
{
    public static string Title(StatementSyntax leave) =>
        leave is ContinueStatementSyntax ? "Go on with the loop where these bytes are no payload" : "Return where these bytes are no payload";

    public static StatementSyntax Unless(ExpressionSyntax isGood, StatementSyntax leave) =>
        SyntaxFactory.IfStatement(SyntaxFactory.PrefixUnaryExpression(SyntaxKind.LogicalNotExpression, isGood.WithoutTrivia()), leave)
            .WithAdditionalAnnotations(Formatter.Annotation);

    /// <summary>Null where a value would have to be returned, which nobody can know.</summary>
    public static StatementSyntax? Of(StatementSyntax statement)
    {
        for (var outer = statement.Parent; outer is not null; outer = outer.Parent)
        {
            switch (outer)
            {
                case ForStatementSyntax or ForEachStatementSyntax or WhileStatementSyntax or DoStatementSyntax:
                    return SyntaxFactory.ContinueStatement();
                case MethodDeclarationSyntax method:
                    return ReturnsNothing(method.ReturnType, method.Modifiers) ? SyntaxFactory.ReturnStatement() : null;
                case LocalFunctionStatementSyntax function:
                    return ReturnsNothing(function.ReturnType, function.Modifiers) ? SyntaxFactory.ReturnStatement() : null;
                case ConstructorDeclarationSyntax:
                    return SyntaxFactory.ReturnStatement();
                case AnonymousFunctionExpressionSyntax or AccessorDeclarationSyntax:
                    return null;
                default:
                    break;
            }
        }
        return null;
    }

    private static bool ReturnsNothing(TypeSyntax type, SyntaxTokenList modifiers) =>
        type is PredefinedTypeSyntax { Keyword.RawKind: (int)SyntaxKind.VoidKeyword }
        || (modifiers.Any(SyntaxKind.AsyncKeyword) && type is IdentifierNameSyntax { Identifier.Text: "Task" or "ValueTask" });
}
