using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode.Rules;

/// <summary>RL9009: a buffer has another length than the payload that is read from it, too little room for one, or a slice reaches past its end.</summary>
internal sealed class BufferThatDoesNotFit : HostRule
{
    private const int DeepestAssignment = 8;

    public override IEnumerable<HostFinding> Check(TypeCode code)
    {
        foreach (var operation in code.Operations)
        {
            var found = operation switch
            {
                IInvocationOperation call => OfCall(code, call) ?? OfSlice(code, call),
                IImplicitIndexerReferenceOperation or IArrayElementReferenceOperation or IPropertyReferenceOperation { Property.IsIndexer: true } => OfElement(code, operation),
                _ => null,
            };
            if (found is not null)
                yield return found;
        }
        foreach (var (value, constant) in LiteralOfThePlan.ComparedWithConstants(code.Operations))
        {
            if (Length(code, value) is { } wanted && constant.Number() is { } number and not 0 && !LiteralOfThePlan.IsOfPlan(code.Host, constant)
                && wanted.Constants.All(one => Operations.Whole(one.ConstantValue) != number))
            {
                yield return At(
                    HostRules.BufferDoesNotFit, constant,
                    $"a packet's length is compared with {number}, and no payload has that length; use one of the constants such as {Host.Call(wanted.Constants[0])}") with
                {
                    Replacement = HostFinding.OneOf(wanted.Constants.Select(Host.Code)),
                };
            }
        }
    }

    private static HostFinding? OfCall(TypeCode code, IInvocationOperation call)
    {
        if (call.Argument(0) is not { } argument)
            return null;
        if (call.TargetMethod.Name is "TryRead" or "Write" or "TryWrite" && code.Host.PayloadOf(call.TargetMethod.ContainingType) is var (_, payload))
        {
            if (LengthOf(code, argument) is not var (length, place))
                return null;
            var (size, sizeInCode) = ($"{Host.Call(call.TargetMethod.ContainingType)}.Size", $"{Host.Code(call.TargetMethod.ContainingType)}.Size");
            if (call.TargetMethod.Name == "TryRead")
            {
                return length == payload.Length ? null : At(
                    HostRules.BufferDoesNotFit, place,
                    $"{length} bytes are never a payload of {payload.Length}: TryRead always fails; use {size}") with { Replacement = IsNumber(place) ? sizeInCode : null };
            }
            return length >= payload.Length ? null : At(
                HostRules.BufferDoesNotFit, place,
                $"{length} bytes have no room for a payload of {payload.Length}, {payload.Length - length} too few; use {size}") with { Replacement = IsNumber(place) ? sizeInCode : null };
        }
        if (call.TargetMethod.Name != "CopyTo" || call.TargetMethod.ContainingType.Name != "ReportBytes" || !code.Host.IsSupport(call.TargetMethod.ContainingType))
            return null;
        var longest = code.Host.Networks.SelectMany(network => network.Payloads).Select(one => one.Payload.Length).DefaultIfEmpty(0).Max();
        return LengthOf(code, argument) is var (room, where) && room < longest && !Guards.Before(call, operation => IsCount(code, operation))
            ? At(HostRules.BufferDoesNotFit, where, $"{room} bytes have no room for the longest payload, which has {longest}; use 32, which hold any packet") with { Replacement = IsNumber(where) ? "32" : null }
            : null;
    }

    private static HostFinding? OfSlice(TypeCode code, IInvocationOperation call)
    {
        if (call.TargetMethod.Name is not ("Slice" or "AsSpan") || call.Receiver() is not { } whole || !code.Flow.Is(whole, Trait.Packet) || LengthOf(code, whole) is not var (length, _))
            return null;
        var numbers = call.Arguments.Where(one => one.Parameter?.Type.SpecialType is SpecialType.System_Int32).Select(one => one.Value.Number()).ToList();
        return numbers switch
        {
            [{ } start] when start > length => Past(call, start, length),
            [{ } start, { } count] when start + count > length => Past(call, start + count, length),
            _ => null,
        };
    }

    private static HostFinding? OfElement(TypeCode code, IOperation operation) =>
        Flow.ElementOf(operation) is var (whole, index) && code.Flow.Is(whole, Trait.Packet) && LengthOf(code, whole) is var (length, _) && index >= length
            ? Past(operation, index + 1, length)
            : null;

    private static HostFinding Past(IOperation operation, long end, int length) =>
        At(HostRules.BufferDoesNotFit, operation, $"this reaches to byte {end} of {length}, {end - length} past the end; use the generated TryRead, which knows the layout");

    /// <summary>How many bytes an expression has for sure, and where that is decided.</summary>
    private static (int Length, IOperation Place)? LengthOf(TypeCode code, IOperation operation, int depth = 0)
    {
        var bare = operation.Bare();
        if (Made(bare) is { } made)
            return made;
        switch (bare)
        {
            case IInvocationOperation { TargetMethod.Name: "Slice" or "AsSpan" or "AsMemory" } slice when slice.Receiver() is { } whole:
                var numbers = slice.Arguments.Where(one => one.Parameter?.Type.SpecialType is SpecialType.System_Int32).Select(one => one.Value).ToList();
                if (numbers.Count == 0)
                    return LengthOf(code, whole);
                if (numbers is [_, { } count])
                    return count.Number() is { } known ? ((int)known, count.Bare()) : null;
                return LengthOf(code, whole) is var (all, _) && numbers[0].Number() is { } start && start <= all ? (all - (int)start, slice) : null;
            case IInvocationOperation { TargetMethod.Name: "ToArray" } copy when copy.Receiver() is { } source && copy.TargetMethod.ContainingNamespace?.Name == "System":
                return LengthOf(code, source);
            case IInvocationOperation:
                return null;
            case IImplicitIndexerReferenceOperation { Argument: IRangeOperation range } part:
                return OfRange(code, part.Instance, range, bare);
            case IArrayElementReferenceOperation { Indices: [IRangeOperation range] } part:
                return OfRange(code, part.ArrayReference, range, bare);
            default:
                break;
        }
        // One length only, whatever is assigned; a variable that also holds what came from elsewhere has none for sure.
        return depth < DeepestAssignment && Flow.Source(bare) is ILocalSymbol or IFieldSymbol { IsReadOnly: true } && code.Flow.PutInto(bare) is [{ } only]
            ? LengthOf(code, only, depth + 1)
            : null;
    }

    private static (int, IOperation)? OfRange(TypeCode code, IOperation whole, IRangeOperation range, IOperation place)
    {
        var start = range.LeftOperand is null ? 0 : range.LeftOperand.Bare().Number();
        if (range.RightOperand is not null)
            return range.RightOperand.Bare().Number() is { } end && start is { } from && end >= from ? ((int)(end - from), from == 0 ? range.RightOperand.Bare() : place) : null;
        return LengthOf(code, whole) is var (all, _) && start <= all ? (all - (int)start.Value, place) : null;
    }

    private static (int, IOperation)? Made(IOperation operation)
    {
        if (operation.MadeLength() is not { } length)
            return null;
        var size = operation is IArrayCreationOperation { Initializer: null, DimensionSizes: [{ } written] } ? written
            : operation.Items() is null ? operation.ChildOperations.FirstOrDefault() : null;
        return (length, size?.Bare() ?? operation);
    }

    private static bool IsNumber(IOperation place) => place is ILiteralOperation;

    private static bool IsCount(TypeCode code, IOperation operation) =>
        operation is IPropertyReferenceOperation { Property: { Name: "Count", ContainingType: { Name: "ReportBytes" } type } } && code.Host.IsSupport(type);

    private static Expectation? Length(TypeCode code, IOperation value) => code.Flow.Expected(value) is { IsLength: true } wanted ? wanted : null;
}
