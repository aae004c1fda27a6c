using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;

namespace RadioLint.Analyzers.HostCode;

/// <summary>What the plan says that a value is: one of some generated constants.</summary>
/// <param name="What">In words: `the pipe of a report`.</param>
/// <param name="Constants">Never empty.</param>
/// <param name="IsLength">True when it counts bytes of a payload.</param>
internal sealed record Expectation(string What, ImmutableArray<IFieldSymbol> Constants, bool IsLength = false)
{
    /// <summary>What an expression is by itself; null when the plan does not say.</summary>
    public static Expectation? Of(IOperation operation, Host host) => operation switch
    {
        IPropertyReferenceOperation { Property: { } property } reference when host.IsSupport(property.ContainingType) => OfReport(reference, property, host),
        _ => null,
    };

    private static Expectation? OfReport(IPropertyReferenceOperation reference, IPropertySymbol property, Host host) => (property.ContainingType.Name, property.Name) switch
    {
        ("ReceivedReport", "Pipe") => From("a pipe that packets come on", host.Constants(network => network.Links.Where(link => !Rides(link)), "Pipe")),
        ("BootReport", "Fingerprint") => From("a network's fingerprint", host.Constants(network => [.. network.Nodes, .. Air(network)], "Fingerprint")),
        ("BootReport", "Digest") => From("a node's digest", host.Constants(network => network.Nodes, "Digest")),
        ("ReportBytes", "Count") when reference.Instance?.Bare() is IPropertyReferenceOperation { Property: { Name: "Packet", ContainingType.Name: "ReceivedReport" } } =>
            From("a packet's length", host.Constants(network => network.Payloads.Select(one => one.Struct), "Size"), isLength: true),
        _ => null,
    };

    private static IEnumerable<INamedTypeSymbol> Air(PlannedNetwork network) => network.Nested("Air") is { } air ? [air] : [];

    private static bool Rides(INamedTypeSymbol link) => !link.GetMembers("RidesInAcknowledgement").IsEmpty;

    private static Expectation? From(string what, IEnumerable<IFieldSymbol> constants, bool isLength = false) =>
        ImmutableArray.CreateRange(constants) is { IsEmpty: false } all ? new(what, all, isLength) : null;
}
