using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Operations;

namespace RadioLint.Analyzers.HostCode;

/// <summary>Small questions about operations.</summary>
internal static class Operations
{
    /// <summary>Without conversions and parentheses.</summary>
    public static IOperation Bare(this IOperation operation)
    {
        while (true)
        {
            switch (operation)
            {
                case IConversionOperation { OperatorMethod: null } conversion:
                    operation = conversion.Operand;
                    continue;
                // From an array to its span, and the like.
                case IConversionOperation { OperatorMethod: { } method } conversion when method.ContainingNamespace?.Name == "System":
                    operation = conversion.Operand;
                    continue;
                case IParenthesizedOperation inner:
                    operation = inner.Operand;
                    continue;
                case IAwaitOperation wait:
                    operation = wait.Operation;
                    continue;
                default:
                    return operation;
            }
        }
    }

    /// <summary>A whole number that the compiler knows.</summary>
    public static long? Number(this IOperation? operation) => operation?.ConstantValue is { HasValue: true, Value: { } value } ? Whole(value) : null;

    public static string? Text(this IOperation? operation) => operation?.ConstantValue is { HasValue: true, Value: string text } ? text : null;

    public static long? Whole(object? value) => value switch
    {
        sbyte or byte or short or ushort or int or uint or long => System.Convert.ToInt64(value, System.Globalization.CultureInfo.InvariantCulture),
        ulong big when big <= long.MaxValue => (long)big,
        System.Enum => null,
        _ => null,
    };

    /// <summary>Whether a method is the named one of the named type.</summary>
    public static bool IsOf(this IMethodSymbol method, string type, string name) =>
        method.Name == name && method.ContainingType?.ToDisplayString(SymbolDisplayFormat.CSharpErrorMessageFormat.WithGenericsOptions(SymbolDisplayGenericsOptions.None)) == type;

    /// <summary>The argument of a parameter, by its position in the method as declared.</summary>
    public static IOperation? Argument(this IInvocationOperation call, int ordinal) =>
        call.Arguments.FirstOrDefault(one => one.Parameter?.Ordinal == ordinal)?.Value;

    /// <summary>What a method is called on: the instance, or the first argument of an extension.</summary>
    public static IOperation? Receiver(this IInvocationOperation call) => call.Instance ?? (call.TargetMethod.IsExtensionMethod ? call.Argument(0) : null);

    /// <summary>Whether an operation stands as a statement of its own, its result thrown away.</summary>
    public static bool IsThrownAway(this IOperation operation)
    {
        var parent = operation.Parent;
        while (parent is IConversionOperation or IAwaitOperation or IParenthesizedOperation)
            parent = parent.Parent;
        return parent is IExpressionStatementOperation || parent is ISimpleAssignmentOperation { Target: IDiscardOperation };
    }

    /// <summary>Those around it, the nearest first.</summary>
    public static IEnumerable<IOperation> Around(this IOperation operation)
    {
        for (var outer = operation.Parent; outer is not null; outer = outer.Parent)
            yield return outer;
    }

    /// <summary>The function that an operation belongs to: the nearest lambda or local function, else the outermost operation.</summary>
    public static IOperation Body(this IOperation operation)
    {
        var last = operation;
        foreach (var outer in operation.Around())
        {
            last = outer;
            if (outer is IAnonymousFunctionOperation or ILocalFunctionOperation)
                break;
        }
        return last;
    }

    /// <summary>The items of an array that is written out: `new byte[] { }`, `stackalloc byte[] { }`, `[ ]`; null where there is no such list.</summary>
    public static IReadOnlyList<IOperation>? Items(this IOperation operation)
    {
        var bare = operation.Bare();
        if (bare is IArrayCreationOperation array)
            return array.Initializer?.ElementValues;
        var isListed = bare.Syntax switch
        {
            StackAllocArrayCreationExpressionSyntax { Initializer: not null } => true,
            ImplicitStackAllocArrayCreationExpressionSyntax { Initializer: not null } => true,
            CollectionExpressionSyntax collection => collection.Elements.All(element => element is ExpressionElementSyntax),
            _ => false,
        };
        if (!isListed)
            return null;
        return bare.Descendants().Where(one => one.Syntax is ExpressionSyntax syntax && IsItem(syntax, bare.Syntax)).GroupBy(one => one.Syntax.SpanStart).Select(same => same.First()).ToList();
    }

    /// <summary>The bytes of an array that is written out; null where one of them is not known.</summary>
    public static byte[]? Bytes(this IOperation operation)
    {
        if (operation.Items() is not { Count: > 0 } items)
            return null;
        var bytes = new byte[items.Count];
        for (var i = 0; i < bytes.Length; i++)
        {
            if (items[i].Number() is not (>= 0 and <= 255 and var value))
                return null;
            bytes[i] = (byte)value;
        }
        return bytes;
    }

    /// <summary>How many items an array that is made here has; null where that is not known.</summary>
    public static int? MadeLength(this IOperation operation)
    {
        var bare = operation.Bare();
        if (bare is IArrayCreationOperation { DimensionSizes.Length: 1 } array)
            return (int?)array.DimensionSizes[0].Number();
        if (bare.Syntax is StackAllocArrayCreationExpressionSyntax { Type: ArrayTypeSyntax { RankSpecifiers: [{ Sizes: [{ } size] }] } }
            && bare.ChildOperations.FirstOrDefault(child => child.Syntax == size) is { } count)
        {
            return (int?)count.Number();
        }
        return operation.Items()?.Count;
    }

    private static bool IsItem(ExpressionSyntax syntax, SyntaxNode list) => syntax.Parent switch
    {
        InitializerExpressionSyntax initializer => initializer.Parent == list,
        ExpressionElementSyntax element => element.Parent == list,
        _ => false,
    };
}
