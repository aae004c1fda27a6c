using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using RadioLint.Analyzers.Generation;
using RadioLint.Model;

namespace RadioLint.Analyzers.HostCode;

/// <summary>A manifest's network together with the class that was generated from it.</summary>
internal sealed class PlannedNetwork
{
    private readonly Dictionary<ISymbol, HostPayload> payloads = new(SymbolEqualityComparer.Default);
    private readonly HostNames names;

    public PlannedNetwork(string path, Network network, HostNames names, INamedTypeSymbol type)
    {
        (Path, Network, this.names, Class) = (path, network, names, type);
        if (Nested("Payloads") is not { } structs)
            return;
        foreach (var payload in names.Payloads)
        {
            if (structs.GetTypeMembers(payload.Name).FirstOrDefault() is { } made)
                payloads[made] = payload;
        }
    }

    public string Path { get; }

    public Network Network { get; }

    public string Name => Network.Name?.Value ?? "";

    public INamedTypeSymbol Class { get; }

    /// <summary>The payload that a generated struct stands for.</summary>
    public HostPayload? PayloadOf(ISymbol type) => payloads.TryGetValue(type, out var payload) ? payload : null;

    /// <summary>The generated struct of a payload; the shortest where there are several.</summary>
    public INamedTypeSymbol? StructOf(Payload payload) =>
        payloads.Where(one => one.Value.Payload == payload).OrderBy(one => one.Value.Length).Select(one => one.Key).FirstOrDefault() as INamedTypeSymbol;

    public IEnumerable<(INamedTypeSymbol Struct, HostPayload Payload)> Payloads =>
        payloads.OrderBy(one => one.Value.Name, StringComparer.Ordinal).Select(one => ((INamedTypeSymbol)one.Key, one.Value));

    public IEnumerable<INamedTypeSymbol> Nodes => Nested("Nodes")?.GetTypeMembers() ?? ImmutableArray<INamedTypeSymbol>.Empty;

    public IEnumerable<INamedTypeSymbol> Links => Nested("Links")?.GetTypeMembers() ?? ImmutableArray<INamedTypeSymbol>.Empty;

    public INamedTypeSymbol? NodeOf(string name) =>
        Network.Nodes.FirstOrDefault(node => node.Name == name) is { } node ? Nested("Nodes")?.GetTypeMembers(names.Of(node)).FirstOrDefault() : null;

    /// <summary>The manifest's node of a generated class.</summary>
    public Node? NodeOf(INamedTypeSymbol type) => Network.Nodes.FirstOrDefault(node => names.Of(node) == type.Name);

    public INamedTypeSymbol? Nested(string name) => Class.GetTypeMembers(name).FirstOrDefault();
}
