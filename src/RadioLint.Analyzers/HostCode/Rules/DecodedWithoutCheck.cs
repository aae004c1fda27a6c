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
            else if (DecodedFrom(operation) is { } bytes && code.Flow.Is(bytes, Trait.Packet) && !IsOfSpi(code, bytes) && operation.Body() is var body && !IsLengthSeen(code, body, bytes) && !IsSeenByCallers(code, bytes) && told.Add(body))
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

    // What comes from the radio itself has STATUS before the packet, and the length that was asked for.
    private static bool IsOfSpi(TypeCode code, IOperation bytes) => code.Operations.OfType<IInvocationOperation>().Any(call =>
        Host.Is(call.TargetMethod.ContainingType, code.Host.SpiDevice) && call.Arguments.Any(argument => code.Flow.AreOne(argument.Value, bytes)));

    private static bool IsLengthSeen(TypeCode code, IOperation body, IOperation bytes) => body.DescendantsAndSelf().Any(operation => IsLook(code, operation, bytes));

    private static bool IsLook(TypeCode code, IOperation operation, IOperation bytes) => operation switch
    {
        IPropertyReferenceOperation { Property.Name: "Length", Instance: { } whole } => code.Flow.AreOne(whole, bytes),
        IPropertyReferenceOperation { Property: { Name: "Count", ContainingType: { Name: "ReportBytes" } type } } => code.Host.IsSupport(type),
        IInvocationOperation { TargetMethod: { Name: "TryRead" or "Write" or "TryWrite" } method } call => code.Host.PayloadOf(method.ContainingType) is not null && code.Flow.AreOne(call.Argument(0), bytes),
        _ => false,
    };

    // A helper that only this type can call, and calls only where the length has been looked at.
    private static bool IsSeenByCallers(TypeCode code, IOperation bytes)
    {
        if (Flow.Source(bytes) is not IParameterSymbol { ContainingSymbol: IMethodSymbol helper } || (helper.MethodKind is not MethodKind.LocalFunction && helper.DeclaredAccessibility is not Accessibility.Private))
            return false;
        var calls = code.Operations.OfType<IInvocationOperation>().Where(call => SymbolEqualityComparer.Default.Equals(call.TargetMethod.OriginalDefinition, helper)).ToList();
        return calls.Count > 0 && calls.TrueForAll(call => Guards.Before(call, one => IsLook(code, one, bytes)));
    }
}
