using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode.Rules;

/// <summary>RL9013: the callback of the radio's interrupt pin waits, or speaks to the bus.</summary>
internal sealed class BlockingCallback : HostRule
{
    public override IEnumerable<HostFinding> Check(TypeCode code)
    {
        foreach (var call in code.Operations.OfType<IInvocationOperation>())
        {
            if (!Host.Is(call.TargetMethod.ContainingType, code.Host.PinController))
                continue;
            foreach (var argument in call.Arguments.Where(one => one.Parameter?.Type.TypeKind is TypeKind.Delegate))
            {
                var body = BodyOf(code, argument.Value);
                if (body is null || !(IsIrq(code, call) || body.DescendantsAndSelf().Any(one => IsBus(code, one))))
                    continue;
                foreach (var operation in Own(body))
                {
                    if (Blocks(code, operation) is { } what)
                        yield return At(HostRules.BlockingCallback, operation, $"the callback of a pin {what}, and further edges wait or are lost meanwhile; set a flag or write to a channel, and do the work elsewhere");
                }
            }
        }
    }

    private static IOperation? BodyOf(TypeCode code, IOperation callback)
    {
        var bare = callback.Bare() is IDelegateCreationOperation made ? made.Target : callback.Bare();
        return bare switch
        {
            IAnonymousFunctionOperation lambda => lambda.Body,
            IMethodReferenceOperation method => code.Operations.FirstOrDefault(one => one is IBlockOperation && (
                one.Parent is ILocalFunctionOperation local && SymbolEqualityComparer.Default.Equals(local.Symbol, method.Method)
                || one.Parent is IMethodBodyOperation body && SymbolEqualityComparer.Default.Equals(body.SemanticModel?.GetDeclaredSymbol(body.Syntax), method.Method))),
            _ => null,
        };
    }

    private static bool IsIrq(TypeCode code, IInvocationOperation call)
    {
        if (call.Argument(0) is not { } pin)
            return false;
        if (pin.DescendantsAndSelf().OfType<IFieldReferenceOperation>().Any(field => code.Host.IsGenerated(field.Field) && field.Field.Name.StartsWith("Irq", StringComparison.Ordinal)))
            return true;
        return pin.Number() is { } number && PinNumbers.Of(code, "Number").Any(one => one.Signal == "Irq" && one.Number == number);
    }

    // What runs in the callback itself; a lambda in it is handed to somebody else's thread.
    private static IEnumerable<IOperation> Own(IOperation operation) =>
        operation.ChildOperations.Where(child => child is not (IAnonymousFunctionOperation or ILocalFunctionOperation)).SelectMany(Own).Prepend(operation);

    private static string? Blocks(TypeCode code, IOperation operation) => operation switch
    {
        IInvocationOperation { TargetMethod: { Name: "Sleep" or "SpinWait" } method } when method.ContainingType?.Name == "Thread" => "sleeps",
        IInvocationOperation { TargetMethod: { Name: "Wait" or "GetResult" or "WaitAll" or "WaitAny" } method } when method.ContainingType?.ContainingNamespace?.ToDisplayString() is "System.Threading.Tasks" or "System.Runtime.CompilerServices" => "waits for a task",
        IPropertyReferenceOperation { Property: { Name: "Result", ContainingType.Name: "Task" or "ValueTask" } } => "waits for a task",
        _ when IsBus(code, operation) => "speaks to the bus",
        _ => null,
    };

    private static bool IsBus(TypeCode code, IOperation operation) => operation is IInvocationOperation call && (
        (Host.Is(call.TargetMethod.ContainingType, code.Host.SpiDevice) && call.Instance is { } device && code.Flow.Is(device, Trait.Radio))
        || (call.TargetMethod.ContainingType?.Name == "RadioOverSpi" && code.Host.IsSupport(call.TargetMethod.ContainingType)));
}
