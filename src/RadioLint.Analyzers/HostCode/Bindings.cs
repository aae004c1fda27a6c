using System.Collections.Immutable;
using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Operations;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode;

/// <summary>RL9003 and RL9005 on what `[Planned]` binds to the plan: constants, fields, properties, parameters and enum members.</summary>
internal static class Bindings
{
    /// <summary>The attribute on a symbol; null when there is none.</summary>
    public static AttributeData? Of(Host host, ISymbol symbol) => host.PlannedAttribute is null
        ? null
        : symbol.GetAttributes().FirstOrDefault(one => SymbolEqualityComparer.Default.Equals(one.AttributeClass, host.PlannedAttribute));

    /// <summary>What is wrong with a declaration: the path, or the constant's value.</summary>
    public static IEnumerable<HostFinding> OfDeclaration(Host host, ISymbol symbol, CancellationToken cancel)
    {
        if (Of(host, symbol) is not { } attribute || Path(attribute) is not { } path)
            yield break;
        var found = PlannedSetting.Find(host, path, TypeOf(symbol)?.SpecialType is SpecialType.System_String);
        if (found.Fault is { } fault)
        {
            var argument = (attribute.ApplicationSyntaxReference?.GetSyntax(cancel) as AttributeSyntax)?.ArgumentList?.Arguments.FirstOrDefault();
            yield return new(HostRules.UnknownName, argument?.Expression.GetLocation() ?? symbol.Locations[0], fault)
            {
                Replacement = found.Right is { } right ? HostFinding.OneOf(right.Select(Generation.CSharp.Quoted)) : null,
            };
            yield break;
        }
        var (value, place) = symbol switch
        {
            IFieldSymbol { HasConstantValue: true } field => (field.ConstantValue, ValueOf(field, cancel)),
            IParameterSymbol { HasExplicitDefaultValue: true } parameter => (parameter.ExplicitDefaultValue, DefaultOf(parameter, cancel)),
            _ => (null, null),
        };
        if (place is not null && found.Member is IFieldSymbol planned && Differs(value, planned))
            yield return Contradiction(symbol, path, value, planned, place);
    }

    /// <summary>What is wrong with a value that goes into a bound variable or parameter.</summary>
    public static IEnumerable<HostFinding> OfValue(Host host, ISymbol? target, IOperation value)
    {
        if (target is null || !value.ConstantValue.HasValue || Of(host, target) is not { } attribute || Path(attribute) is not { } path)
            yield break;
        if (PlannedSetting.Find(host, path, value.Text() is not null).Member is IFieldSymbol planned && Differs(value.ConstantValue.Value, planned))
            yield return Contradiction(target, path, value.ConstantValue.Value, planned, value.Bare().Syntax.GetLocation());
    }

    /// <summary>The payload that a struct is bound to; null when it is bound to none.</summary>
    public static INamedTypeSymbol? PayloadOf(Host host, INamedTypeSymbol type) =>
        Of(host, type) is { } attribute && Path(attribute) is { } path ? PlannedSetting.Find(host, path, false).Member as INamedTypeSymbol : null;

    private static HostFinding Contradiction(ISymbol symbol, string path, object? value, IFieldSymbol planned, Location place) => new(
        HostRules.LiteralContradictsPlan, place,
        $"`{symbol.Name}` is bound to `{path}` and is {Shown(value)}, and {Host.Call(planned)} is {Shown(planned.ConstantValue)}; use the constant")
    {
        Replacement = symbol is IFieldSymbol { ContainingType.TypeKind: TypeKind.Enum } or IFieldSymbol { IsConst: true } && !IsAlike(symbol, planned) ? null : Host.Code(planned),
    };

    // A constant of another type would not compile.
    private static bool IsAlike(ISymbol symbol, IFieldSymbol planned) =>
        symbol is IFieldSymbol field && (SymbolEqualityComparer.Default.Equals(field.Type, planned.Type)
            || SymbolEqualityComparer.Default.Equals(field.ContainingType.EnumUnderlyingType, planned.Type)
            || (Operations.Whole(planned.ConstantValue) is >= 0 and <= 127 && Operations.Whole(field.ConstantValue) is not null));

    private static string? Path(AttributeData attribute) => attribute.ConstructorArguments is [{ Value: string path }] ? path : null;

    private static bool Differs(object? value, IFieldSymbol planned) => (value, planned.ConstantValue) switch
    {
        (string text, string wanted) => text != wanted,
        (bool flag, bool wanted) => flag != wanted,
        (null, _) => false,
        var (one, other) => Amount(one) is { } amount && Amount(other) is { } wanted ? amount != wanted : one?.GetType() != other?.GetType(),
    };

    private static decimal? Amount(object? value) => value switch
    {
        sbyte or byte or short or ushort or int or uint or long or ulong or decimal => Convert.ToDecimal(value, CultureInfo.InvariantCulture),
        float or double when Convert.ToDouble(value, CultureInfo.InvariantCulture) is > -1e15 and < 1e15 and var real => (decimal)real,
        _ => null,
    };

    private static string Shown(object? value) => value switch
    {
        string text => $"\"{text}\"",
        bool flag => flag ? "true" : "false",
        IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
        _ => "null",
    };

    private static ITypeSymbol? TypeOf(ISymbol symbol) => symbol switch
    {
        IFieldSymbol field => field.Type,
        IPropertySymbol property => property.Type,
        IParameterSymbol parameter => parameter.Type,
        _ => null,
    };

    private static Location? ValueOf(IFieldSymbol field, CancellationToken cancel) => field.DeclaringSyntaxReferences.FirstOrDefault()?.GetSyntax(cancel) switch
    {
        VariableDeclaratorSyntax { Initializer: { } initializer } => initializer.Value.GetLocation(),
        EnumMemberDeclarationSyntax { EqualsValue: { } equals } => equals.Value.GetLocation(),
        { } other => other.GetLocation(),
        null => null,
    };

    private static Location? DefaultOf(IParameterSymbol parameter, CancellationToken cancel) =>
        parameter.DeclaringSyntaxReferences.FirstOrDefault()?.GetSyntax(cancel) is ParameterSyntax { Default: { } value } ? value.Value.GetLocation() : null;
}
