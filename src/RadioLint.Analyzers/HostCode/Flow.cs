using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;

namespace RadioLint.Analyzers.HostCode;

/// <summary>What a variable is to a radio.</summary>
[Flags]
internal enum Trait
{
    None = 0,

    /// <summary>The SPI device that a radio is on, or its settings.</summary>
    Radio = 1,

    /// <summary>Bytes of a packet.</summary>
    Packet = 2,

    /// <summary>A frame that loads a packet into the radio.</summary>
    LoadsPacket = 4,
}

/// <summary>
/// Which variables of one type hold the same thing. Variables that are ever assigned to each other, passed to a parameter or returned count as
/// one; order and branches are not looked at.
/// </summary>
internal sealed partial class Flow
{
    private readonly Dictionary<ISymbol, ISymbol> parents = new(SymbolEqualityComparer.Default);
    private readonly Dictionary<ISymbol, Trait> traits = new(SymbolEqualityComparer.Default);
    private readonly Dictionary<ISymbol, Expectation> expected = new(SymbolEqualityComparer.Default);
    private readonly Dictionary<ISymbol, List<IOperation>> values = new(SymbolEqualityComparer.Default);
    private readonly Dictionary<ISymbol, List<IOperation>> assigned = new(SymbolEqualityComparer.Default);
    private readonly Host host;

    public Flow(Host host, IEnumerable<IOperation> operations)
    {
        this.host = host;
        foreach (var operation in operations)
            Follow(operation);
        // Only when all is joined is a trait a group's.
        foreach (var operation in operations)
            Notice(operation);
    }

    /// <summary>What the variable behind an expression is to a radio.</summary>
    public Trait TraitOf(IOperation? operation) =>
        operation is not null && Source(operation) is { } symbol && traits.TryGetValue(Root(symbol), out var trait) ? trait : Trait.None;

    public bool Is(ISymbol symbol, Trait trait) => traits.TryGetValue(Root(symbol), out var had) && (had & trait) != 0;

    public bool Is(IOperation? operation, Trait trait) => (TraitOf(operation) & trait) != 0;

    /// <summary>True when a variable of the type has the trait.</summary>
    public bool Any(Trait trait) => traits.Values.Any(one => (one & trait) != 0);

    /// <summary>What an expression should be by the plan; null when the plan does not say.</summary>
    public Expectation? Expected(IOperation operation) =>
        Expectation.Of(operation.Bare(), host) ?? (Source(operation) is { } symbol && expected.TryGetValue(Root(symbol), out var known) ? known : null);

    /// <summary>Everything that is ever put into the variable behind an expression, other variables aside.</summary>
    public IReadOnlyList<IOperation> ValuesOf(IOperation operation) =>
        Source(operation) is { } symbol && values.TryGetValue(Root(symbol), out var all) ? all : [];

    /// <summary>What is ever put into the very variable that an expression names, in the order of the sources.</summary>
    public IReadOnlyList<IOperation> PutInto(IOperation operation) =>
        Source(operation) is { } symbol && assigned.TryGetValue(symbol, out var all) ? all : [];

    /// <summary>Whether two expressions are the same variable, or were assigned to each other.</summary>
    public bool AreOne(IOperation? left, IOperation? right) =>
        left is not null && right is not null && Source(left) is { } a && Source(right) is { } b && SymbolEqualityComparer.Default.Equals(Root(a), Root(b));

    private void Follow(IOperation operation)
    {
        switch (operation)
        {
            case ISimpleAssignmentOperation assignment:
                Put(Source(assignment.Target), assignment.Value);
                break;
            case IVariableDeclaratorOperation declarator when declarator.GetVariableInitializer() is { } initializer:
                Put(declarator.Symbol, initializer.Value);
                break;
            case IFieldInitializerOperation field:
                foreach (var symbol in field.InitializedFields)
                    Put(symbol, field.Value);
                break;
            case IPropertyInitializerOperation property:
                foreach (var symbol in property.InitializedProperties)
                    Put(symbol, property.Value);
                break;
            case IArgumentOperation { Parameter: { } parameter, Parent: IInvocationOperation or IObjectCreationOperation } argument when IsOwn(parameter):
                Put(parameter.OriginalDefinition, argument.Value);
                break;
            case IReturnOperation { ReturnedValue: { } value } when MethodOf(operation) is { } method:
                Put(method, value);
                break;
            default:
                break;
        }
    }

    private void Notice(IOperation operation)
    {
        switch (operation)
        {
            case IInvocationOperation { TargetMethod: { } method } call when host.IsSupport(method.ContainingType):
                if (method.ContainingType.Name == "RadioOverSpi")
                    Mark(call.Argument(0), Trait.Radio);
                if (method.ContainingType.Name == "ReportBytes" && method.Name == "CopyTo")
                {
                    Mark(call.Argument(0), Trait.Packet);
                    Mark(Target(call), Trait.Packet);
                }
                break;
            case IInvocationOperation { TargetMethod: { } method } call when method.Name is "TryRead" or "TryWrite" or "Write" && host.PayloadOf(method.ContainingType) is not null:
                Mark(call.Argument(0), Trait.Packet);
                break;
            case IObjectCreationOperation creation when Host.Is(creation.Type, host.SpiSettings):
                if (creation.Descendants().OfType<IFieldReferenceOperation>().Any(field => host.IsGenerated(field.Field)))
                    Mark(Target(creation), Trait.Radio);
                break;
            case ISimpleAssignmentOperation { Target: IPropertyReferenceOperation { Instance: { } instance, Property: { } property }, Value: IFieldReferenceOperation field }
                when Host.Is(property.ContainingType, host.SpiSettings) && host.IsGenerated(field.Field):
                Mark(instance, Trait.Radio);
                break;
            case ISimpleAssignmentOperation { Target: IArrayElementReferenceOperation or IImplicitIndexerReferenceOperation or IPropertyReferenceOperation { Property.IsIndexer: true } } first:
                if (IsLoad(first.Value.Number()) && ElementOf(first.Target) is { Index: 0, Whole: var whole })
                    Mark(whole, Trait.LoadsPacket);
                break;
            default:
                break;
        }
    }

    private static bool IsLoad(long? command) => command is RadioCommands.WTxPayload or RadioCommands.WTxPayloadNoAck;

    /// <summary>The whole and the constant index of an element; null where it is no element or the index is not known.</summary>
    public static (IOperation Whole, int Index)? ElementOf(IOperation operation) => operation switch
    {
        IArrayElementReferenceOperation { Indices: [{ } index] } element when index.Number() is { } at => (element.ArrayReference, (int)at),
        IPropertyReferenceOperation { Property.IsIndexer: true, Instance: { } whole, Arguments: [{ } index] } when index.Value.Number() is { } at => (whole, (int)at),
        _ => null,
    };

    private void Put(ISymbol? target, IOperation value)
    {
        if (target is null)
            return;
        if (!assigned.TryGetValue(target, out var put))
            assigned.Add(target, put = []);
        put.Add(value);
        if (Expectation.Of(value.Bare(), host) is { } wanted)
        {
            expected[Root(target)] = wanted;
            return;
        }
        if (Source(value) is { } source)
        {
            Join(target, source);
            return;
        }
        if (!values.TryGetValue(Root(target), out var all))
            values.Add(Root(target), all = []);
        all.Add(value.Bare());
        if (value.Bytes() is { Length: > 0 } bytes && IsLoad(bytes[0]))
            Mark(target, Trait.LoadsPacket);
    }

    private void Join(ISymbol left, ISymbol right)
    {
        var (a, b) = (Root(left), Root(right));
        if (SymbolEqualityComparer.Default.Equals(a, b))
            return;
        parents[b] = a;
        if (traits.TryGetValue(b, out var trait))
            Mark(a, trait);
        if (expected.TryGetValue(b, out var wanted) && !expected.ContainsKey(a))
            expected.Add(a, wanted);
        if (!values.TryGetValue(b, out var more))
            return;
        if (values.TryGetValue(a, out var all))
            all.AddRange(more);
        else
            values.Add(a, more);
    }

    private void Mark(IOperation? operation, Trait trait)
    {
        if (operation is not null)
            Mark(Source(operation), trait);
    }

    private void Mark(ISymbol? symbol, Trait trait)
    {
        if (symbol is null)
            return;
        var root = Root(symbol);
        traits[root] = traits.TryGetValue(root, out var had) ? had | trait : trait;
    }

    private ISymbol Root(ISymbol symbol)
    {
        while (parents.TryGetValue(symbol, out var parent))
            symbol = parent;
        return symbol;
    }

    // Into methods whose code is looked at too; elsewhere a value is lost from sight.
    private bool IsOwn(IParameterSymbol parameter) =>
        !parameter.DeclaringSyntaxReferences.IsEmpty && !host.IsGenerated(parameter.ContainingType) && !host.IsSupport(parameter.ContainingType);
}
