using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace RadioLint.Mutation;

/// <summary>The changes that are tried: at a node, what may take its place.</summary>
internal static class Operators
{
    private const string Comparison = "comparison", Arithmetic = "arithmetic", Logic = "logic", Condition = "condition", Choice = "choice",
        Flag = "true or false", Text = "text", Call = "call", Statement = "statement", Pattern = "pattern", Elements = "elements";

    private static readonly Dictionary<SyntaxKind, (string Class, string[] Others)> Binary = new()
    {
        [SyntaxKind.LessThanToken] = (Comparison, ["<=", ">"]),
        [SyntaxKind.LessThanEqualsToken] = (Comparison, ["<", ">"]),
        [SyntaxKind.GreaterThanToken] = (Comparison, [">=", "<"]),
        [SyntaxKind.GreaterThanEqualsToken] = (Comparison, [">", "<"]),
        [SyntaxKind.EqualsEqualsToken] = (Comparison, ["!="]),
        [SyntaxKind.ExclamationEqualsToken] = (Comparison, ["=="]),
        [SyntaxKind.PlusToken] = (Arithmetic, ["-"]),
        [SyntaxKind.MinusToken] = (Arithmetic, ["+"]),
        [SyntaxKind.AsteriskToken] = (Arithmetic, ["/"]),
        [SyntaxKind.SlashToken] = (Arithmetic, ["*"]),
        [SyntaxKind.PercentToken] = (Arithmetic, ["*"]),
        [SyntaxKind.LessThanLessThanToken] = (Arithmetic, [">>"]),
        [SyntaxKind.GreaterThanGreaterThanToken] = (Arithmetic, ["<<"]),
        [SyntaxKind.AmpersandToken] = (Arithmetic, ["|"]),
        [SyntaxKind.BarToken] = (Arithmetic, ["&"]),
        [SyntaxKind.CaretToken] = (Arithmetic, ["|"]),
        [SyntaxKind.AmpersandAmpersandToken] = (Logic, ["||"]),
        [SyntaxKind.BarBarToken] = (Logic, ["&&"]),
        [SyntaxKind.PlusEqualsToken] = (Arithmetic, ["-="]),
        [SyntaxKind.MinusEqualsToken] = (Arithmetic, ["+="]),
        [SyntaxKind.AmpersandEqualsToken] = (Arithmetic, ["|="]),
        [SyntaxKind.BarEqualsToken] = (Arithmetic, ["&="]),
        [SyntaxKind.QuestionQuestionEqualsToken] = (Choice, ["="]),
        [SyntaxKind.AndKeyword] = (Pattern, ["or"]),
        [SyntaxKind.OrKeyword] = (Pattern, ["and"]),
    };

    private static readonly (string, string)[] Pairs =
    [
        ("First", "Last"), ("FirstOrDefault", "LastOrDefault"), ("Any", "All"), ("Exists", "TrueForAll"), ("Min", "Max"), ("MinBy", "MaxBy"),
        ("OrderBy", "OrderByDescending"), ("ThenBy", "ThenByDescending"), ("Skip", "Take"), ("SkipWhile", "TakeWhile"), ("Append", "Prepend"),
        ("Union", "Intersect"), ("Concat", "Except"), ("StartsWith", "EndsWith"), ("Floor", "Ceiling"), ("ToLowerInvariant", "ToUpperInvariant"),
    ];

    private static readonly Dictionary<string, string[]> Calls = Pairs.SelectMany(pair => new[] { pair, (pair.Item2, pair.Item1) })
        .ToDictionary(pair => pair.Item1, pair => new[] { pair.Item2 })
        .Concat([new("Single", ["First"]), new("SingleOrDefault", ["FirstOrDefault"]), new("Sum", ["Max"]), new("Find", ["FindLast"])])
        .ToDictionary();

    // Calls whose receiver can stand alone.
    private static readonly HashSet<string> Droppable = ["Where", "OfType", "Distinct", "Reverse", "DefaultIfEmpty", "Trim", "TrimEnd", "TrimStart", "OrderBy", "ThenBy", "Skip", "Take"];

    public static IEnumerable<(string Class, SyntaxNodeOrToken At, string Text)> At(SyntaxNode node) => node switch
    {
        BinaryExpressionSyntax { RawKind: (int)SyntaxKind.CoalesceExpression } coalesce =>
            [(Choice, coalesce, $"({coalesce.Left})"), (Choice, coalesce, $"({coalesce.Right})")],
        BinaryExpressionSyntax { RawKind: (int)SyntaxKind.AddExpression } sum when IsText(sum.Left) || IsText(sum.Right) => [],
        BinaryExpressionSyntax binary => Token(binary.OperatorToken),
        AssignmentExpressionSyntax assignment => Token(assignment.OperatorToken),
        BinaryPatternSyntax pattern => Token(pattern.OperatorToken),
        RelationalPatternSyntax relational => Token(relational.OperatorToken).Select(change => (Pattern, change.Item2, change.Item3)),
        UnaryPatternSyntax not => [(Pattern, not, $"({not.Pattern})")],
        IsPatternExpressionSyntax { Pattern: not UnaryPatternSyntax } match => [(Pattern, match.Pattern, $"not ({match.Pattern})")],
        PrefixUnaryExpressionSyntax prefix => Prefix(prefix),
        PostfixUnaryExpressionSyntax { RawKind: (int)SyntaxKind.PostIncrementExpression } up => [(Arithmetic, up.OperatorToken, "--")],
        PostfixUnaryExpressionSyntax { RawKind: (int)SyntaxKind.PostDecrementExpression } down => [(Arithmetic, down.OperatorToken, "++")],
        ConditionalExpressionSyntax choice =>
        [
            (Choice, choice.Condition, $"(true || ({choice.Condition}))"),
            (Choice, choice.Condition, $"(false && ({choice.Condition}))"),
        ],
        IfStatementSyntax branch => [(Condition, branch.Condition, $"!({branch.Condition})")],
        WhileStatementSyntax loop => [(Condition, loop.Condition, $"!({loop.Condition})")],
        LiteralExpressionSyntax literal => Literal(literal),
        InterpolatedStringExpressionSyntax { Contents.Count: > 0 } text => [(Text, text, "$\"\"")],
        InvocationExpressionSyntax call => Named(call),
        CollectionExpressionSyntax { Elements.Count: > 0 } list => [(Elements, list, "[]")],
        InitializerExpressionSyntax { Expressions.Count: > 0 } initializer when !initializer.IsKind(SyntaxKind.WithInitializerExpression) => [(Elements, initializer, "{ }")],
        WithExpressionSyntax with => [(Elements, with, $"({with.Expression})")],
        StatementSyntax statement => Removed(statement),
        _ => [],
    };

    private static IEnumerable<(string, SyntaxNodeOrToken, string)> Token(SyntaxToken token) =>
        Binary.TryGetValue(token.Kind(), out var found) ? found.Others.Select(other => (found.Class, (SyntaxNodeOrToken)token, other)) : [];

    private static IEnumerable<(string, SyntaxNodeOrToken, string)> Prefix(PrefixUnaryExpressionSyntax prefix) => prefix.Kind() switch
    {
        SyntaxKind.LogicalNotExpression => [(Logic, prefix, $"({prefix.Operand})")],
        SyntaxKind.UnaryMinusExpression or SyntaxKind.BitwiseNotExpression => [(Arithmetic, prefix, $"({prefix.Operand})")],
        SyntaxKind.PreIncrementExpression => [(Arithmetic, prefix.OperatorToken, "--")],
        SyntaxKind.PreDecrementExpression => [(Arithmetic, prefix.OperatorToken, "++")],
        _ => [],
    };

    private static IEnumerable<(string, SyntaxNodeOrToken, string)> Literal(LiteralExpressionSyntax literal) => literal.Kind() switch
    {
        SyntaxKind.TrueLiteralExpression => [(Flag, literal, "false")],
        SyntaxKind.FalseLiteralExpression => [(Flag, literal, "true")],
        SyntaxKind.StringLiteralExpression => [(Text, literal, literal.Token.ValueText.Length == 0 ? "\"filled\"" : "\"\"")],
        _ => [],
    };

    private static IEnumerable<(string, SyntaxNodeOrToken, string)> Named(InvocationExpressionSyntax call)
    {
        if (call.Expression is not MemberAccessExpressionSyntax { Name: var name } access)
            yield break;
        foreach (var other in Calls.GetValueOrDefault(name.Identifier.Text, []))
            yield return (Call, name.GetFirstToken(), other);
        if (Droppable.Contains(name.Identifier.Text) && !(name.Identifier.Text == "OfType" && call.ArgumentList.Arguments.Count > 0))
            yield return (Call, call, $"{access.Expression}");
    }

    private static IEnumerable<(string, SyntaxNodeOrToken, string)> Removed(StatementSyntax statement) => statement switch
    {
        // A method must stay an iterator and its end must stay in reach of the compiler's eye, hence never rather than nothing.
        YieldStatementSyntax or ContinueStatementSyntax or BreakStatementSyntax or ReturnStatementSyntax or ExpressionStatementSyntax or ThrowStatementSyntax =>
            [(Statement, statement, $"if ({MutantSwitch.Name}.Never) {{ {statement} }}")],
        _ => [],
    };

    private static bool IsText(ExpressionSyntax side) => side is InterpolatedStringExpressionSyntax or LiteralExpressionSyntax { RawKind: (int)SyntaxKind.StringLiteralExpression }
        || side is BinaryExpressionSyntax { RawKind: (int)SyntaxKind.AddExpression } sum && (IsText(sum.Left) || IsText(sum.Right));
}
