using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Operations;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode.Rules;

/// <summary>RL9008: numbers of a packet are converted in the machine's byte order, or in the one that no payload has.</summary>
internal sealed class OtherByteOrder : HostRule
{
    private static readonly string[] Primitives = ["Int16", "UInt16", "Int32", "UInt32", "Int64", "UInt64", "Single", "Double"];

    public override IEnumerable<HostFinding> Check(TypeCode code)
    {
        var orders = code.Host.Networks.SelectMany(network => network.Network.Payloads).Select(payload => payload.IsBigEndian).Distinct().ToList();
        // Where payloads differ, either order may be meant.
        var order = orders.Count == 1 ? orders[0] ? "BigEndian" : "LittleEndian" : null;
        foreach (var call in code.Operations.OfType<IInvocationOperation>())
        {
            if (call.Argument(0) is not { } first)
                continue;
            var method = call.TargetMethod;
            switch (method.ContainingType?.Name)
            {
                case "BitConverter" when method.Name.StartsWith("To", StringComparison.Ordinal) && Primitives.Contains(method.Name.Substring(2), StringComparer.Ordinal) && code.Flow.Is(first, Trait.Packet):
                    yield return Machine(call, order is null ? null : Reader(call, first, method.Name.Substring(2), order));
                    break;
                case "BitConverter" when method.Name == "GetBytes" && IsIntoPacket(code, call):
                    yield return Machine(call, null);
                    break;
                case "BitConverter" when method.Name == "TryWriteBytes" && code.Flow.Is(first, Trait.Packet) && call.Argument(1) is { Type: { } type } value && Primitives.Contains(type.Name, StringComparer.Ordinal):
                    yield return Machine(call, order is null || !call.IsThrownAway() ? null : $"{BinaryPrimitives}.Write{type.Name}{order}({first.Syntax}, {value.Syntax})");
                    break;
                case "MemoryMarshal" when method.Name is "Read" or "Write" or "TryRead" or "TryWrite" or "AsRef" or "Cast" && Number(method) is { } number && IsOfPacket(code, call, first):
                    yield return Machine(call, order is null || method.Name != "Read" ? null : $"{BinaryPrimitives}.Read{number}{order}({first.Syntax})");
                    break;
                case "BinaryPrimitives" when order is not null && code.Flow.Is(first, Trait.Packet) && Opposite(method.Name, order):
                    yield return At(
                        HostRules.WrongByteOrder, call,
                        $"every payload of the manifest is {(order == "BigEndian" ? "big" : "little")}-endian, and {method.Name} is not; use {Turned(method.Name)}") with
                    {
                        Replacement = WithName(call, Turned(method.Name)),
                    };
                    break;
                default:
                    break;
            }
        }
    }

    private const string BinaryPrimitives = "global::System.Buffers.Binary.BinaryPrimitives";

    private static HostFinding Machine(IInvocationOperation call, string? replacement) => At(
        HostRules.WrongByteOrder, call,
        $"{call.TargetMethod.ContainingType.Name}.{call.TargetMethod.Name} follows the byte order of the machine, and a payload has one of its own; use the generated payload, or BinaryPrimitives with the order in its name") with
    {
        Replacement = replacement,
    };

    private static string Reader(IInvocationOperation call, IOperation bytes, string number, string order)
    {
        var from = call.Argument(1)?.Syntax.ToString();
        var isArray = bytes.Bare().Type is IArrayTypeSymbol;
        var source = from is null or "0" ? bytes.Syntax.ToString() : isArray ? $"global::System.MemoryExtensions.AsSpan({bytes.Syntax}, {from})" : $"{bytes.Syntax}.Slice({from})";
        return $"{BinaryPrimitives}.Read{number}{order}({source})";
    }

    // Only the name changes, with all that stands around it.
    private static string? WithName(IInvocationOperation call, string name)
    {
        if (call.Syntax is not InvocationExpressionSyntax { Expression: var called })
            return null;
        var old = called is MemberAccessExpressionSyntax access ? access.Name.Span : called.Span;
        return call.Syntax.ToString().Remove(old.Start - call.Syntax.SpanStart, old.Length).Insert(old.Start - call.Syntax.SpanStart, name);
    }

    private static string? Number(IMethodSymbol method) =>
        method.TypeArguments.FirstOrDefault(type => Primitives.Contains(type.Name, StringComparer.Ordinal) && type.ContainingNamespace?.Name == "System")?.Name;

    private static bool IsOfPacket(TypeCode code, IInvocationOperation call, IOperation first) =>
        code.Flow.Is(first, Trait.Packet) || (call.Parent is { } parent && Flow.Target(call) is { } target && parent is not null && code.Flow.Is(target, Trait.Packet));

    // Copied into a packet, or given to one of its elements.
    private static bool IsIntoPacket(TypeCode code, IInvocationOperation call)
    {
        foreach (var outer in call.Around().Take(4))
        {
            if (outer is IInvocationOperation { TargetMethod.Name: "CopyTo" or "CopyBlock" or "BlockCopy" or "Copy" } copy)
                return copy.Arguments.Any(argument => code.Flow.Is(argument.Value, Trait.Packet));
        }
        return Flow.Target(call) is { } target && (code.Flow.Is(target, Trait.Packet) || IsCopied(code, target));
    }

    private static bool IsCopied(TypeCode code, ISymbol bytes) => code.Operations.OfType<IInvocationOperation>().Any(copy =>
        copy.TargetMethod.Name is "CopyTo" or "BlockCopy" or "Copy"
        && (copy.Receiver() is { } source && SymbolEqualityComparer.Default.Equals(Flow.Source(source), bytes) || copy.Arguments.Any(argument => SymbolEqualityComparer.Default.Equals(Flow.Source(argument.Value), bytes)))
        && copy.Arguments.Any(argument => code.Flow.Is(argument.Value, Trait.Packet)));

    private static bool Opposite(string method, string order) => method.EndsWith(order == "BigEndian" ? "LittleEndian" : "BigEndian", StringComparison.Ordinal);

    private static string Turned(string method) => method.EndsWith("BigEndian", StringComparison.Ordinal)
        ? method.Substring(0, method.Length - "BigEndian".Length) + "LittleEndian"
        : method.Substring(0, method.Length - "LittleEndian".Length) + "BigEndian";
}
