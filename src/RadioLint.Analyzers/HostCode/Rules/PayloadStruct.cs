using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using RadioLint.Analyzers.Generation;
using RadioLint.Rules.HostCode;

namespace RadioLint.Analyzers.HostCode.Rules;

/// <summary>RL9006 and RL9007: a struct of the program's own is laid over a packet, and is not laid out as the payload is.</summary>
internal sealed class PayloadStruct : HostRule
{
    public override IEnumerable<HostFinding> Check(TypeCode code)
    {
        foreach (var call in code.Operations.OfType<IInvocationOperation>())
        {
            if (call.TargetMethod is not { IsGenericMethod: true, Name: "Read" or "TryRead" or "AsRef" or "Cast" or "Write" or "TryWrite" or "PtrToStructure" or "ReadUnaligned" or "As" } method
                || method.ContainingType?.Name is not ("MemoryMarshal" or "Marshal" or "Unsafe")
                || !call.Arguments.Any(argument => code.Flow.Is(argument.Value, Trait.Packet)))
            {
                continue;
            }
            foreach (var type in method.TypeArguments.OfType<INamedTypeSymbol>().Where(type => type.TypeKind is TypeKind.Struct && !type.DeclaringSyntaxReferences.IsEmpty))
            {
                if (Bindings.Of(code.Host, type) is null && !code.Host.IsGenerated(type))
                    return Judge(code.Host, type, call.Syntax.GetLocation());
            }
        }
        return [];
    }

    /// <summary>What is wrong with a struct as a payload.</summary>
    /// <param name="type">The struct.</param>
    /// <param name="place">Where it is used as a payload; its own place when it is bound to one.</param>
    public static IEnumerable<HostFinding> Judge(Host host, INamedTypeSymbol type, Location place)
    {
        var (network, payload) = PayloadFor(host, type);
        if (StructLayout.Of(type) is not { } layout)
            yield break;
        var made = network?.StructOf(payload!.Payload);
        var isFixed = true;
        foreach (var (field, why) in layout.Unfit)
        {
            isFixed = false;
            yield return new(HostRules.FieldWithoutFixedForm, field.Locations.FirstOrDefault(one => one.IsInSource) ?? place, $"`{field.Name}` is {why}; {Use(made)}") { GeneratedType = Name(made) };
        }
        if (!isFixed)
            yield break;
        if (payload is null)
        {
            if (host.Networks.SelectMany(one => one.Payloads).All(one => one.Payload.Length != layout.Size))
                yield return Wrong($"`{type.Name}` has {layout.Size} bytes, and no payload of the manifest has that length");
            yield break;
        }
        var placed = payload.Payload.Layout().ToList();
        for (var i = 0; i < Math.Min(placed.Count, layout.Fields.Count); i++)
        {
            var (field, offset, size) = layout.Fields[i];
            var (stated, at) = (placed[i].Field, placed[i].Offset);
            if (offset != at || size != stated.Size)
            {
                yield return Wrong($"`{field.Name}` of `{type.Name}` has bytes {offset} to {offset + size - 1}, and `{stated.Name}` of payload `{payload.Payload.Name}` bytes {at} to {at + stated.Size - 1}");
                yield break;
            }
        }
        if (layout.Size != payload.Length)
            yield return Wrong($"`{type.Name}` has {layout.Size} bytes, and payload `{payload.Payload.Name}` {payload.Length}");
        else if (layout.Fields.Count != placed.Count)
            yield return Wrong($"`{type.Name}` has {layout.Fields.Count} fields, and payload `{payload.Payload.Name}` {placed.Count}");

        HostFinding Wrong(string what) => new(HostRules.StructOfOtherLayout, place, $"{what}; {Use(made)}") { GeneratedType = Name(made) };
    }

    // The one it is bound to, else the one of its name, else the only one of its length.
    private static (PlannedNetwork? Network, HostPayload? Payload) PayloadFor(Host host, INamedTypeSymbol type)
    {
        var all = host.Networks.SelectMany(network => network.Payloads, (network, one) => (Network: network, one.Payload, one.Struct)).ToList();
        if (Bindings.PayloadOf(host, type) is { } bound)
            return all.Where(one => SymbolEqualityComparer.Default.Equals(one.Struct, bound)).Select(one => ((PlannedNetwork?)one.Network, (HostPayload?)one.Payload)).FirstOrDefault();
        var named = all.FindAll(one => type.Name.StartsWith(one.Struct.Name, StringComparison.OrdinalIgnoreCase) || type.Name.EndsWith(one.Struct.Name, StringComparison.OrdinalIgnoreCase));
        return named.Count == 1 || all.Count == 1 ? (named.Concat(all).First().Network, named.Concat(all).First().Payload) : (null, null);
    }

    private static string Use(INamedTypeSymbol? made) => made is null ? "use one of the generated payloads" : $"use {Host.Call(made)}";

    private static string? Name(INamedTypeSymbol? made) => made is null ? null : Host.Code(made);
}
