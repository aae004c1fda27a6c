using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode.Rules;

/// <summary>RL9015: the radio's bus, its pins or the gateway's port are opened and never given back.</summary>
internal sealed class DeviceNotDisposed : HostRule
{
    public override IEnumerable<HostFinding> Check(TypeCode code)
    {
        foreach (var operation in code.Operations)
        {
            if (!IsOpening(code, operation, out var kind) || IsUsed(operation) || Flow.Target(operation) is not { } target)
                continue;
            switch (target)
            {
                case ILocalSymbol local when !IsGivenBack(code, local):
                    yield return At(HostRules.NotDisposed, operation, $"{kind} in `{local.Name}` is never disposed of: it stays taken until the program ends; declare it with `using`");
                    break;
                // A static one lives as long as the program.
                case IFieldSymbol { IsStatic: false, ContainingType: { } owner } field when !owner.AllInterfaces.Any(one => one.Name is "IDisposable" or "IAsyncDisposable") && !IsGivenBack(code, field):
                    yield return At(HostRules.NotDisposed, operation, $"{kind} in `{field.Name}` is never disposed of, and `{owner.Name}` is not IDisposable; implement it and dispose of the field");
                    break;
                default:
                    break;
            }
        }
    }

    private static bool IsOpening(TypeCode code, IOperation operation, out string kind)
    {
        kind = operation switch
        {
            IInvocationOperation { TargetMethod: { } method } when method.IsOf("System.Device.Spi.SpiDevice", "Create") => "the radio's SPI device",
            IObjectCreationOperation creation when Host.Is(creation.Type, code.Host.PinController) => "the pin controller",
            IObjectCreationOperation creation when Host.Is(creation.Type, code.Host.SerialPort) => "the gateway's port",
            _ => "",
        };
        return operation switch
        {
            IInvocationOperation => kind.Length > 0 && Flow.Target(operation) is { } device && code.Flow.Is(device, Trait.Radio),
            // Pins and ports of a type that speaks to a radio are taken for the radio's.
            IObjectCreationOperation creation => kind.Length > 0 && (Host.Is(creation.Type, code.Host.SerialPort) || code.Flow.Any(Trait.Radio)),
            _ => false,
        };
    }

    private static bool IsUsed(IOperation operation) => operation.Around().Any(outer =>
        outer is IUsingDeclarationOperation || (outer is IUsingOperation whole && whole.Resources.DescendantsAndSelf().Contains(operation)));

    // Disposed of, or handed to somebody who may.
    private static bool IsGivenBack(TypeCode code, ISymbol variable)
    {
        bool IsIt(IOperation operation) => Flow.Source(operation) is { } symbol && SymbolEqualityComparer.Default.Equals(symbol, variable);
        // Whole or as part of a tuple, a list, a choice.
        bool IsIn(IOperation value) => value.Bare() switch
        {
            ITupleOperation tuple => tuple.Elements.Any(IsIn),
            IConditionalOperation choice => IsIn(choice.WhenTrue) || (choice.WhenFalse is { } other && IsIn(other)),
            ICoalesceOperation choice => IsIn(choice.Value) || IsIn(choice.WhenNull),
            ISwitchExpressionOperation choice => choice.Arms.Any(arm => IsIn(arm.Value)),
            var bare => IsIt(bare) || (bare.Items() is { } items && items.Any(IsIn)),
        };
        return code.Operations.Any(operation => operation switch
        {
            IInvocationOperation { TargetMethod.Name: "Dispose" or "DisposeAsync" or "Close", Instance: { } instance } => IsIt(instance),
            IConditionalAccessOperation access => IsIt(access.Operation)
                && access.WhenNotNull.DescendantsAndSelf().OfType<IInvocationOperation>().Any(call => call.TargetMethod.Name is "Dispose" or "DisposeAsync" or "Close"),
            IArgumentOperation { Parent: IInvocationOperation { TargetMethod: { } method } } argument =>
                IsIt(argument.Value) && !(method.ContainingType?.Name == "RadioOverSpi" && code.Host.IsSupport(method.ContainingType)),
            IArgumentOperation argument => IsIn(argument.Value),
            IReturnOperation { ReturnedValue: { } value } => IsIn(value),
            ISimpleAssignmentOperation assignment => IsIn(assignment.Value),
            IVariableInitializerOperation initializer => IsIn(initializer.Value),
            IUsingOperation whole => whole.Resources.DescendantsAndSelf().Any(IsIt),
            // Its stream is handed on, and closing that closes it.
            IPropertyReferenceOperation { Property.Name: "BaseStream", Instance: { } port } => IsIt(port),
            _ => false,
        });
    }
}
