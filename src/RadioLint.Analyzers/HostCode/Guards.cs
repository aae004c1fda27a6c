using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;

namespace RadioLint.Analyzers.HostCode;

/// <summary>Whether code has asked something before it comes to an operation.</summary>
internal static class Guards
{
    /// <summary>
    /// True when the operation stands in a branch whose condition looks at it, or behind an `if` that looks at it and leaves. What is asked is not judged.
    /// </summary>
    public static bool Before(IOperation operation, Func<IOperation, bool> isLook)
    {
        bool Looks(IOperation? condition) => condition is not null && condition.DescendantsAndSelf().Any(isLook);
        var inner = operation;
        foreach (var outer in operation.Around())
        {
            var isGuarded = outer switch
            {
                IConditionalOperation branch => branch.Condition != inner && Looks(branch.Condition),
                IBinaryOperation { OperatorKind: BinaryOperatorKind.ConditionalAnd or BinaryOperatorKind.ConditionalOr } both => both.RightOperand == inner && Looks(both.LeftOperand),
                ISwitchOperation chosen => chosen.Value != inner && Looks(chosen.Value),
                ISwitchExpressionOperation chosen => chosen.Value != inner && Looks(chosen.Value),
                ISwitchExpressionArmOperation arm => arm.Value == inner && Looks(arm.Guard),
                IWhileLoopOperation loop => loop.Body == inner && Looks(loop.Condition),
                IBlockOperation block => block.Operations.TakeWhile(one => one != inner).OfType<IConditionalOperation>()
                    .Any(earlier => Looks(earlier.Condition) && (Leaves(earlier.WhenTrue) || Leaves(earlier.WhenFalse))),
                _ => false,
            };
            if (isGuarded)
                return true;
            inner = outer;
        }
        return false;
    }

    private static bool Leaves(IOperation? branch) =>
        (branch is IBlockOperation block ? block.Operations.LastOrDefault() : branch) is IReturnOperation or IBranchOperation or IThrowOperation or IExpressionStatementOperation { Operation: IThrowOperation };
}
