using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode.Rules;

/// <summary>RL9011: whether something was written, sent or verified is not looked at.</summary>
internal sealed class IgnoredResult : HostRule
{
    public override IEnumerable<HostFinding> Check(TypeCode code)
    {
        foreach (var call in code.Operations.OfType<IInvocationOperation>())
        {
            var method = call.TargetMethod;
            if (method.Name == "TryWrite" && code.Host.PayloadOf(method.ContainingType) is var (_, payload) && call.IsThrownAway())
            {
                yield return At(
                    HostRules.ResultIgnored, call,
                    $"TryWrite writes nothing where a value of `{payload.Payload.Name}` does not fit, and nobody looks; use its result, or Write, which throws");
            }
            else if (method.Name == "VerifyImage" && code.Host.IsSupport(method.ContainingType) && call.IsThrownAway())
            {
                yield return At(HostRules.ResultIgnored, call, $"the registers are compared with the plan and nobody looks at the differences; use the list, which is empty where all agree");
            }
            else if (method.Name == "TryGetSent" && code.Host.IsSupport(method.ContainingType) && call.Argument(0) is { } report && !IsResultRead(code, report))
            {
                yield return At(HostRules.ResultIgnored, call, $"that something was sent is noticed, and not whether it arrived; use Result of the report");
            }
        }
    }

    private static bool IsResultRead(TypeCode code, IOperation report)
    {
        var symbol = Flow.Source(report);
        // Handed on whole, it may be read there.
        return symbol is not null && code.Operations.Any(operation => operation switch
        {
            IPropertyReferenceOperation { Property.Name: "Result", Instance: { } instance } => SymbolEqualityComparer.Default.Equals(Flow.Source(instance), symbol),
            IPropertySubpatternOperation { Member: IPropertyReferenceOperation { Property.Name: "Result" } } => true,
            IArgumentOperation argument => argument.Value != report && argument.Parameter?.RefKind is not RefKind.Out && SymbolEqualityComparer.Default.Equals(Flow.Source(argument.Value), symbol),
            IReturnOperation { ReturnedValue: { } returned } => SymbolEqualityComparer.Default.Equals(Flow.Source(returned), symbol),
            ISimpleAssignmentOperation assignment => SymbolEqualityComparer.Default.Equals(Flow.Source(assignment.Value), symbol),
            IVariableInitializerOperation initializer => SymbolEqualityComparer.Default.Equals(Flow.Source(initializer.Value), symbol),
            _ => false,
        });
    }
}
