using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;

namespace RadioLint.Analyzers.HostCode;

/// <summary>The code of one type, and which of its variables belong to a radio.</summary>
internal sealed class TypeCode
{
    private TypeCode(Host host, ImmutableArray<IOperation> operations) => (Host, Operations, Flow) = (host, operations, new(host, operations));

    public Host Host { get; }

    /// <summary>Every operation, outermost first, in the order of the sources.</summary>
    public ImmutableArray<IOperation> Operations { get; }

    public Flow Flow { get; }

    /// <summary>Null when nothing in the type has to do with a radio: then nobody looks at it.</summary>
    public static TypeCode? Of(Host host, IEnumerable<IOperation> blocks)
    {
        var operations = ImmutableArray.CreateBuilder<IOperation>();
        var isOfRadio = false;
        foreach (var block in blocks.OrderBy(block => block.Syntax.SyntaxTree.FilePath, StringComparer.Ordinal).ThenBy(block => block.Syntax.SpanStart))
        {
            foreach (var operation in block.DescendantsAndSelf())
            {
                operations.Add(operation);
                isOfRadio = isOfRadio || Touches(host, operation);
            }
        }
        return isOfRadio ? new(host, operations.ToImmutable()) : null;
    }

    /// <summary>The nodes whose image the type writes to its radio; all that this computer may be, when it writes none.</summary>
    public IEnumerable<(PlannedNetwork Network, INamedTypeSymbol Node)> OwnNodes()
    {
        var applied = Operations.OfType<IMemberReferenceOperation>()
            .Where(reference => reference.Member.ContainingType is { ContainingType.Name: "Nodes" } && reference.Member.Name is "Image" or "Frames" && Host.IsGenerated(reference.Member))
            .Select(reference => reference.Member.ContainingType).Distinct<INamedTypeSymbol>(SymbolEqualityComparer.Default).ToList();
        foreach (var network in Host.Networks)
        {
            foreach (var node in network.Nodes)
            {
                var isOwn = applied.Count > 0
                    ? applied.Contains(node, SymbolEqualityComparer.Default)
                    : network.NodeOf(node)?.Host?.By?.Value == "spi";
                if (isOwn)
                    yield return (network, node);
            }
        }
    }

    private static bool Touches(Host host, IOperation operation) => operation switch
    {
        IMemberReferenceOperation reference => host.IsGenerated(reference.Member) || host.IsSupport(reference.Member.ContainingType),
        IInvocationOperation call => host.IsSupport(call.TargetMethod.ContainingType) || host.IsGenerated(call.TargetMethod),
        IObjectCreationOperation creation => host.IsSupport(creation.Type) || host.IsGenerated(creation.Type),
        IParameterReferenceOperation parameter => host.IsSupport(parameter.Type),
        _ => false,
    };
}
