using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;

namespace RadioLint.Analyzers.HostCode;

/// <summary>From expressions to the variables behind them, without regard to what these hold.</summary>
internal sealed partial class Flow
{
    private static readonly string[] Slicing = ["Slice", "AsSpan", "AsMemory", "AsReadOnlySpan", "ToArray"];

    /// <summary>The variable that a value ends up in.</summary>
    public static ISymbol? Target(IOperation value)
    {
        for (var outer = value.Parent; outer is not null; value = outer, outer = outer.Parent)
        {
            switch (outer)
            {
                case IConversionOperation or IParenthesizedOperation or IVariableInitializerOperation or IAwaitOperation or IArgumentOperation { Parent: IInvocationOperation { TargetMethod.Name: "Create" } }:
                case IInvocationOperation { TargetMethod.Name: "Create" }:
                case IConditionalOperation conditional when conditional.Condition != value:
                    continue;
                case IVariableDeclaratorOperation declarator:
                    return declarator.Symbol;
                case ISimpleAssignmentOperation assignment when assignment.Value == value:
                    return Source(assignment.Target);
                case IFieldInitializerOperation field:
                    return field.InitializedFields.FirstOrDefault();
                case IPropertyInitializerOperation property:
                    return property.InitializedProperties.FirstOrDefault();
                case IReturnOperation:
                    return MethodOf(outer);
                default:
                    return null;
            }
        }
        return null;
    }

    /// <summary>The variable behind an expression: slices and conversions of it are it.</summary>
    public static ISymbol? Source(IOperation operation)
    {
        while (true)
        {
            switch (operation.Bare())
            {
                case ILocalReferenceOperation local:
                    return local.Local;
                case IParameterReferenceOperation parameter:
                    return parameter.Parameter.OriginalDefinition;
                case IFieldReferenceOperation { Field.IsConst: false } field:
                    return field.Field.OriginalDefinition;
                case IPropertyReferenceOperation { Property: { Name: "Span", ContainingNamespace.Name: "System" }, Instance: { } memory }:
                    operation = memory;
                    continue;
                case IPropertyReferenceOperation { Property: { IsIndexer: false } property } reference when reference.Instance is null or IInstanceReferenceOperation:
                    return property.OriginalDefinition;
                case IInvocationOperation { TargetMethod: { } method } call when Slicing.Contains(method.Name, StringComparer.Ordinal) && call.Receiver() is { } whole:
                    operation = whole;
                    continue;
                case IInvocationOperation { TargetMethod: { } method } call when method.IsOf("System.Device.Spi.SpiDevice", "Create") && call.Arguments.Length == 1:
                    operation = call.Arguments[0].Value;
                    continue;
                case IInvocationOperation call when call.Instance is null or IInstanceReferenceOperation:
                    return call.TargetMethod.OriginalDefinition;
                case IImplicitIndexerReferenceOperation { Argument.Type.Name: "Range" } slice:
                    operation = slice.Instance;
                    continue;
                case IArrayElementReferenceOperation { Indices: [{ Type.Name: "Range" }] } slice:
                    operation = slice.ArrayReference;
                    continue;
                case IDeclarationExpressionOperation declared:
                    operation = declared.Expression;
                    continue;
                case IUsingDeclarationOperation:
                default:
                    return null;
            }
        }
    }

    private static IMethodSymbol? MethodOf(IOperation operation)
    {
        foreach (var outer in operation.Around())
        {
            if (outer is IAnonymousFunctionOperation)
                return null;
            if (outer is ILocalFunctionOperation local)
                return local.Symbol;
        }
        return operation.SemanticModel?.GetEnclosingSymbol(operation.Syntax.SpanStart) as IMethodSymbol;
    }
}
