using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using RadioLint.Model;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode.Rules;

/// <summary>RL9020: the count of a scaled field is shown, or used as a real number, as if it were the value.</summary>
internal sealed class CountAsValue : HostRule
{
    public override IEnumerable<HostFinding> Check(TypeCode code)
    {
        foreach (var reference in code.Operations.OfType<IPropertyReferenceOperation>())
        {
            if (!reference.Property.Name.EndsWith("Raw", StringComparison.Ordinal) || code.Host.PayloadOf(reference.Property.ContainingType) is not var (_, payload))
                continue;
            var name = reference.Property.Name.Substring(0, reference.Property.Name.Length - 3);
            if (reference.Property.ContainingType.GetMembers(name).FirstOrDefault() is not IPropertySymbol value
                || payload.Payload.Fields.FirstOrDefault(field => Generation.CSharp.Pascal(field.Name) == name) is not { } stated
                || stated.Scale == 1)
            {
                continue;
            }
            if (Misuse(reference, stated) is not { } how)
                continue;
            yield return At(
                HostRules.CountUsedAsValue, reference,
                $"{reference.Property.Name} counts steps of {stated.Scale.ToString(CultureInfo.InvariantCulture)} {stated.Unit ?? "each"} and is {how}; use {value.Name}{(stated.Unit is null ? "" : $", which is in {stated.Unit}")}") with
            {
                Replacement = how.StartsWith("scaled", StringComparison.Ordinal) || IsFormatted(reference) ? null : WithName(reference, value.Name),
            };
        }
    }

    private static string? Misuse(IPropertyReferenceOperation reference, Field stated)
    {
        IOperation child = reference;
        var isReal = false;
        while (child.Parent is IConversionOperation or IParenthesizedOperation)
        {
            child = child.Parent;
            isReal = isReal || IsReal(child.Type);
        }
        return child.Parent switch
        {
            IInterpolationOperation or IArgumentOperation { Parent: IInvocationOperation { TargetMethod.Name: "AppendFormatted" } } => "shown as if it were the value",
            IInvocationOperation { TargetMethod.Name: "ToString" } => "shown as if it were the value",
            IBinaryOperation { OperatorKind: BinaryOperatorKind.Add, Type.SpecialType: SpecialType.System_String } => "shown as if it were the value",
            IBinaryOperation { OperatorKind: BinaryOperatorKind.Multiply or BinaryOperatorKind.Divide } factor => OfFactor(factor, child, stated),
            IBinaryOperation { OperatorKind: BinaryOperatorKind.Add or BinaryOperatorKind.Subtract } when isReal => "added up as if it were the value",
            IBinaryOperation { OperatorKind: BinaryOperatorKind.LessThan or BinaryOperatorKind.LessThanOrEqual or BinaryOperatorKind.GreaterThan or BinaryOperatorKind.GreaterThanOrEqual } when isReal => "compared as if it were the value",
            _ => isReal ? "used as a real number as if it were the value" : null,
        };
    }

    // By the field's own scale it becomes the value; by another it does not.
    private static string? OfFactor(IBinaryOperation factor, IOperation count, Field stated)
    {
        var other = factor.LeftOperand == count ? factor.RightOperand : factor.LeftOperand;
        if (other.Bare().ConstantValue is not { HasValue: true, Value: { } constant } || constant is not (int or long or float or double or decimal))
            return null;
        var amount = constant is float or double ? Convert.ToDouble(constant, CultureInfo.InvariantCulture) : (double)Convert.ToDecimal(constant, CultureInfo.InvariantCulture);
        // Whole numbers stay counts, of larger or smaller steps.
        if (!IsReal(factor.Type) || (factor.OperatorKind is BinaryOperatorKind.Divide && factor.LeftOperand != count))
            return null;
        var scale = factor.OperatorKind is BinaryOperatorKind.Divide ? 1 / amount : amount;
        // As near as a float comes.
        return Math.Abs(scale - (double)stated.Scale) <= 1e-6 * Math.Abs((double)stated.Scale)
            ? null
            : $"scaled by {scale.ToString("R", CultureInfo.InvariantCulture)}";
    }

    private static bool IsReal(ITypeSymbol? type) => type?.SpecialType is SpecialType.System_Double or SpecialType.System_Single or SpecialType.System_Decimal;

    // A format such as `X4` or `D5` knows whole numbers only.
    private static bool IsFormatted(IPropertyReferenceOperation reference) => reference.Around().Take(4).Any(outer => outer switch
    {
        IInterpolationOperation shown => shown.FormatString is not null,
        IInvocationOperation { TargetMethod.Name: "ToString" or "AppendFormatted" } call => call.Arguments.Any(argument => argument.Value.Text() is not null),
        _ => false,
    });

    private static string WithName(IPropertyReferenceOperation reference, string name)
    {
        var written = reference.Syntax.ToString();
        return written.Substring(0, written.Length - reference.Property.Name.Length) + name;
    }
}
