using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode.Rules;

/// <summary>RL9010: fields are taken from a packet whose length and constants nobody has looked at.</summary>
internal sealed class DecodedWithoutCheck : HostRule
{
    public override IEnumerable<HostFinding> Check(TypeCode code)
    {
        var told = new HashSet<IOperation>();
        foreach (var operation in code.Operations)
        {
            if (operation is IInvocationOperation { TargetMethod.Name: "TryRead" } read && code.Host.PayloadOf(read.TargetMethod.ContainingType) is var (_, payload))
            {
                if (read.IsThrownAway())
                    yield return At(HostRules.DecodedUnchecked, read, $"nobody looks whether these bytes were a payload of {payload.Length}; use its fields only where TryRead is true");
            }
            else if (DecodedFrom(operation) is { } bytes && code.Flow.Is(bytes, Trait.Packet) && operation.Body() is var body && !IsLengthSeen(code, body, bytes) && told.Add(body))
            {
                var names = code.Host.Networks.SelectMany(network => network.Payloads).Select(one => one.Struct).ToList();
                yield return At(
                    HostRules.DecodedUnchecked, operation,
                    $"a field is taken from a packet whose length nobody has looked at; use TryRead of {(names.Count == 1 ? Host.Call(names[0]) : "the generated payload")}, which checks length and constants");
            }
        }
    }

    /// <summary>The bytes that a number is made from; null for anything else.</summary>
    public static IOperation? DecodedFrom(IOperation operation) => operation switch
    {
        IInvocationOperation { TargetMethod: { } method } call when IsReader(method) => call.Argument(0),
        // An element that is read; one that is written to is a packet being made.
        IArrayElementReferenceOperation or IPropertyReferenceOperation { Property.IsIndexer: true } when operation.Parent is not IAssignmentOperation assignment || assignment.Target != operation =>
            Flow.ElementOf(operation)?.Whole,
        _ => null,
    };

    private static bool IsReader(IMethodSymbol method) =>
        (method.ContainingType?.Name is "BinaryPrimitives" && method.Name.StartsWith("Read", StringComparison.Ordinal))
        || (method.ContainingType?.Name is "BitConverter" && method.Name.StartsWith("To", StringComparison.Ordinal) && method.Name != "ToString")
        || (method.ContainingType?.Name is "MemoryMarshal" && method.Name is "Read" or "AsRef" or "Cast");

    private static bool IsLengthSeen(TypeCode code, IOperation body, IOperation bytes)
    {
        foreach (var operation in body.DescendantsAndSelf())
        {
            switch (operation)
            {
                case IPropertyReferenceOperation { Property.Name: "Length", Instance: { } whole } when code.Flow.AreOne(whole, bytes):
                case IPropertyReferenceOperation { Property: { Name: "Count", ContainingType.Name: "ReportBytes" } } count when code.Host.IsSupport(count.Property.ContainingType):
                case IInvocationOperation { TargetMethod.Name: "TryRead" or "Write" or "TryWrite" } call when code.Host.PayloadOf(call.TargetMethod.ContainingType) is not null && code.Flow.AreOne(call.Argument(0), bytes):
                    return true;
                default:
                    break;
            }
        }
        return false;
    }
}
