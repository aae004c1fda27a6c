using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode.Rules;

/// <summary>RL9019: a loop that receives has no way out, or a catch in it hides every fault.</summary>
internal sealed class EndlessReceiving : HostRule
{
    public override IEnumerable<HostFinding> Check(TypeCode code)
    {
        foreach (var loop in code.Operations.OfType<ILoopOperation>())
        {
            if (!Own(loop.Body).Any(operation => Receives(code, operation)))
                continue;
            if (IsEndless(loop) && !Own(loop.Body).Any(operation => Leaves(loop, operation)))
                yield return At(HostRules.EndlessReceiving, Keyword(loop), $"this loop receives for ever and nothing can stop it; look at a CancellationToken in its condition");
            foreach (var handler in Own(loop.Body).OfType<ICatchClauseOperation>())
            {
                if (IsEverything(handler) && !Own(handler.Handler).Any(operation => operation is IThrowOperation or ILocalReferenceOperation or IInvocationOperation or IAssignmentOperation or IIncrementOrDecrementOperation or IReturnOperation or IBranchOperation { BranchKind: BranchKind.Break }))
                    yield return At(HostRules.EndlessReceiving, CatchKeyword(handler), $"this catch hides every fault of the receive loop, a port that is gone among them; catch what can be expected, and say or throw the rest");
            }
        }
    }

    private static bool Receives(TypeCode code, IOperation operation) => operation switch
    {
        IObjectCreationOperation { Type.Name: "ReportReader" } creation => code.Host.IsSupport(creation.Type),
        IInvocationOperation { TargetMethod: { } method } call =>
            (code.Host.IsSupport(method.ContainingType) && method.ContainingType.Name is "ReportReader" or "ReportLine")
            || (Host.Is(method.ContainingType, code.Host.SpiDevice) && method.Name is "Read" or "TransferFullDuplex" && call.Instance is { } device && code.Flow.Is(device, Trait.Radio))
            || (method.Name == "TryRead" && code.Host.PayloadOf(method.ContainingType) is not null)
            || (Host.Is(method.ContainingType, code.Host.SerialPort) && method.Name.StartsWith("Read", StringComparison.Ordinal)),
        _ => false,
    };

    private static bool IsEndless(ILoopOperation loop) => loop switch
    {
        IWhileLoopOperation whileLoop => whileLoop.Condition?.ConstantValue is { HasValue: true, Value: true },
        IForLoopOperation forLoop => forLoop.Condition is null or { ConstantValue: { HasValue: true, Value: true } },
        _ => false,
    };

    private static bool Leaves(ILoopOperation loop, IOperation operation) => operation switch
    {
        IReturnOperation { Kind: OperationKind.Return or OperationKind.YieldBreak } => true,
        // A fault that nobody catches within the loop ends it.
        IThrowOperation => !operation.Around().TakeWhile(outer => outer != loop).Any(outer => outer is ITryOperation { Catches.IsEmpty: false }),
        IBranchOperation { BranchKind: BranchKind.Break or BranchKind.GoTo } branch => !SymbolEqualityComparer.Default.Equals(branch.Target, loop.ContinueLabel)
            && (branch.BranchKind is BranchKind.GoTo || SymbolEqualityComparer.Default.Equals(branch.Target, loop.ExitLabel)),
        // Given a token, what is called throws when it is time to stop.
        _ => operation.Type?.Name == "CancellationToken" && !operation.IsImplicit && operation is not IDefaultValueOperation,
    };

    private static bool IsEverything(ICatchClauseOperation handler) =>
        handler.Filter is null && (handler.ExceptionType is null || handler.ExceptionType.ToDisplayString() is "System.Exception" or "object");

    // What runs in the loop itself; a lambda runs some other time.
    private static IEnumerable<IOperation> Own(IOperation operation)
    {
        yield return operation;
        foreach (var child in operation.ChildOperations)
        {
            if (child is IAnonymousFunctionOperation or ILocalFunctionOperation)
                continue;
            foreach (var inner in Own(child))
                yield return inner;
        }
    }

    private static Location Keyword(ILoopOperation loop) => loop.Syntax.GetFirstToken().GetLocation();

    private static Location CatchKeyword(ICatchClauseOperation handler) => handler.Syntax.GetFirstToken().GetLocation();
}
