using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode.Rules;

/// <summary>RL9004 and RL9005: a literal stands where the plan has a value, and repeats or contradicts it.</summary>
internal sealed class LiteralOfThePlan : HostRule
{
    public override IEnumerable<HostFinding> Check(TypeCode code) =>
        Comparisons(code).Concat(Names(code)).Concat(Addresses(code)).Concat(Clocks(code));

    private static IEnumerable<HostFinding> Comparisons(TypeCode code)
    {
        foreach (var (value, constant) in ComparedWithConstants(code.Operations))
        {
            if (code.Flow.Expected(value) is not { } wanted || constant.Number() is not { } number || IsOfPlan(code.Host, constant))
                continue;
            var equal = wanted.Constants.Where(one => Operations.Whole(one.ConstantValue) == number).ToList();
            // A length that no payload has is a buffer's matter.
            if (equal.Count == 0 && !wanted.IsLength && !IsOwnState(code, value, number))
                yield return Contradicts(constant, wanted, number);
            else if (equal.Count > 0)
                yield return Repeats(constant, Shown(constant, number), equal);
        }
    }

    // A variable that is set to the constant, or begins as it, says so that nothing has come yet.
    private static bool IsOwnState(TypeCode code, IOperation value, long number) =>
        code.Flow.ValuesOf(value).Any(one => one.Number() == number) || (number == 0 && Flow.Source(value) is IFieldSymbol or IPropertySymbol);

    private static IEnumerable<HostFinding> Names(TypeCode code)
    {
        foreach (var call in code.Operations.OfType<IInvocationOperation>())
        {
            if (call.TargetMethod.Name != "IsFrom" || !code.Host.IsSupport(call.TargetMethod.ContainingType) || call.Argument(0) is not { } argument || IsOfPlan(code.Host, argument))
                continue;
            var equal = code.Host.Constants(network => network.Nodes, "Name").Where(name => argument.Text() is { } written && (string?)name.ConstantValue == written).ToList();
            if (equal.Count > 0)
                yield return Repeats(argument, $"\"{argument.Text()}\"", equal);
        }
    }

    // Three bytes and more are no accident; in the order of the manifest they are the address backwards.
    private static IEnumerable<HostFinding> Addresses(TypeCode code)
    {
        foreach (var operation in code.Operations)
        {
            if (operation is ILiteralOperation && operation.Text() is { } text && !IsBound(code.Host, operation))
            {
                var equal = AddressMembers(code.Host).Where(one => (string?)one.Address.ConstantValue == text).Select(one => one.Address).ToList();
                if (equal.Count > 0)
                    yield return Repeats(operation, $"\"{text}\"", equal);
            }
            else if (operation.Bytes() is { Length: >= 3 and <= 5 } bytes && operation is not IConversionOperation)
            {
                var known = AddressMembers(code.Host).ToList();
                var spi = known.FirstOrDefault(one => Spelled(Enumerable.Reverse(bytes)) == (string?)one.Address.ConstantValue);
                var written = known.FirstOrDefault(one => Spelled(bytes) == (string?)one.Address.ConstantValue);
                if (spi.Bytes is not null)
                {
                    yield return At(HostRules.LiteralRepeatsPlan, operation, $"these bytes repeat {Host.Call(spi.Bytes)}; use it, so that the manifest alone says the address") with
                    {
                        // What was generated is a span that cannot be written to.
                        Replacement = IsReadOnly(operation) ? Host.Code(spi.Bytes) : null,
                    };
                }
                else if (written.Bytes is not null)
                {
                    yield return At(
                        HostRules.LiteralContradictsPlan, operation,
                        $"these are the {bytes.Length} bytes of {Host.Call(written.Address)} in the order of the manifest, and the registers take them the other way round; use {Host.Call(written.Bytes)}") with
                    {
                        Replacement = IsReadOnly(operation) ? Host.Code(written.Bytes) : null,
                    };
                }
            }
        }
    }

    private static IEnumerable<HostFinding> Clocks(TypeCode code)
    {
        var clocks = code.OwnNodes().SelectMany(own => own.Node.GetMembers("SpiClockHz")).OfType<IFieldSymbol>().ToList();
        foreach (var assignment in SpiSettings.Assignments(code, "ClockFrequency"))
        {
            if (assignment.Value.Number() is not { } hertz || IsOfPlan(code.Host, assignment.Value))
                continue;
            if (clocks.FindAll(clock => Operations.Whole(clock.ConstantValue) == hertz) is { Count: > 0 } equal)
                yield return Repeats(assignment.Value, hertz.ToString(CultureInfo.InvariantCulture), equal);
        }
    }

    /// <summary>Values with the constants that they are compared with: by operators, patterns and cases.</summary>
    public static IEnumerable<(IOperation Value, IOperation Constant)> ComparedWithConstants(IEnumerable<IOperation> operations)
    {
        foreach (var operation in operations)
        {
            switch (operation)
            {
                case IBinaryOperation { OperatorKind: BinaryOperatorKind.Equals or BinaryOperatorKind.NotEquals } binary:
                    if (binary.RightOperand.ConstantValue.HasValue)
                        yield return (binary.LeftOperand, binary.RightOperand.Bare());
                    else if (binary.LeftOperand.ConstantValue.HasValue)
                        yield return (binary.RightOperand, binary.LeftOperand.Bare());
                    break;
                case IConstantPatternOperation pattern when Examined(pattern) is { } value:
                    yield return (value, pattern.Value.Bare());
                    break;
                case ISingleValueCaseClauseOperation { Parent: ISwitchCaseOperation { Parent: ISwitchOperation whole } } single:
                    yield return (whole.Value, single.Value.Bare());
                    break;
                default:
                    break;
            }
        }
    }

    // Through `or` and `not` to what is looked at; a pattern within a property's is about something else.
    private static IOperation? Examined(IPatternOperation pattern)
    {
        foreach (var outer in pattern.Around())
        {
            switch (outer)
            {
                case IBinaryPatternOperation or INegatedPatternOperation or ISwitchExpressionArmOperation or IPatternCaseClauseOperation or ISwitchCaseOperation:
                    continue;
                case IIsPatternOperation examined:
                    return examined.Value;
                case ISwitchExpressionOperation examined:
                    return examined.Value;
                case ISwitchOperation examined:
                    return examined.Value;
                case IPropertySubpatternOperation { Member: { } member }:
                    return member;
                default:
                    return null;
            }
        }
        return null;
    }

    private static IEnumerable<(IFieldSymbol Address, ISymbol Bytes)> AddressMembers(Host host)
    {
        foreach (var network in host.Networks)
        {
            var pipes = network.Nodes.SelectMany(node => node.GetTypeMembers("Pipes")).SelectMany(all => all.GetTypeMembers());
            foreach (var type in network.Links.Concat(pipes))
            {
                if (type.GetMembers("Address").FirstOrDefault() is IFieldSymbol address && type.GetMembers("AddressBytes").FirstOrDefault() is { } bytes)
                    yield return (address, bytes);
            }
        }
    }

    private static HostFinding Repeats(IOperation literal, string shown, List<IFieldSymbol> equal)
    {
        var others = equal.Count > 1 ? FormattableString.Invariant($" and {equal.Count - 1} more") : "";
        return At(HostRules.LiteralRepeatsPlan, literal, $"{shown} repeats {Host.Call(equal[0])}{others}; use the constant, so that the manifest alone says it") with
        {
            // Which of several is meant, a person must say.
            Replacement = HostFinding.OneOf(equal.Select(Host.Code)),
        };
    }

    private static HostFinding Contradicts(IOperation literal, Expectation wanted, long number)
    {
        var only = wanted.Constants.Length == 1 ? wanted.Constants[0] : null;
        return only is not null
            ? At(HostRules.LiteralContradictsPlan, literal, $"{Shown(literal, number)} is compared with {wanted.What}, and {Host.Call(only)} is {Shown(literal, Operations.Whole(only.ConstantValue)!.Value)}; use the constant") with { Replacement = Host.Code(only) }
            : At(HostRules.LiteralContradictsPlan, literal, $"{Shown(literal, number)} is compared with {wanted.What}, and none of the plan has it; use one of the constants such as {Host.Call(wanted.Constants[0])}") with { Replacement = HostFinding.OneOf(wanted.Constants.Select(Host.Code)) };
    }

    private static bool IsReadOnly(IOperation bytes) => bytes.Around().TakeWhile(outer => outer is IConversionOperation).LastOrDefault()?.Type?.Name == "ReadOnlySpan";

    // As written, where it is written as a number.
    private static string Shown(IOperation literal, long number)
    {
        var written = literal.Syntax.ToString();
        return written.StartsWith("0x", StringComparison.OrdinalIgnoreCase) ? $"0x{number.ToString("X", CultureInfo.InvariantCulture)}" : number.ToString(CultureInfo.InvariantCulture);
    }

    private static string Spelled(IEnumerable<byte> bytes) => "0x" + string.Concat(bytes.Select(one => one.ToString("X2", CultureInfo.InvariantCulture)));

    /// <summary>Whether a constant comes from generated code, if only in part: `Reading.Size + 1`.</summary>
    public static bool IsOfPlan(Host host, IOperation constant) =>
        constant.DescendantsAndSelf().OfType<IFieldReferenceOperation>().Any(field => host.IsGenerated(field.Field) || Bindings.Of(host, field.Field) is not null);

    // What is bound to the plan is compared with it where it is declared.
    private static bool IsBound(Host host, IOperation literal) => Flow.Target(literal) is { } target && Bindings.Of(host, target) is not null;
}
