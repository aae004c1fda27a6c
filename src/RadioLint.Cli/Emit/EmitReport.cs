using System.Collections.Immutable;
using RadioLint.Findings;

namespace RadioLint.Cli.Emit;

/// <summary>What a run of `emit` did, or would do. Paths are those of the options, joined with `/`, in ordinal order.</summary>
public sealed record EmitReport
{
    /// <summary>Files that were written; none when only checking or when something stands in the way.</summary>
    public ImmutableArray<string> Written { get; init; } = [];

    /// <summary>Files that hold exactly what they should; left untouched.</summary>
    public ImmutableArray<string> Unchanged { get; init; } = [];

    /// <summary>Files that are missing or older than the manifest and were not written.</summary>
    public ImmutableArray<string> Stale { get; init; } = [];

    /// <summary>Files that somebody edited, or that were never issued from this manifest; not overwritten without force.</summary>
    public ImmutableArray<string> Edited { get; init; } = [];

    /// <summary>Files that were issued for nodes which no longer exist; never removed.</summary>
    public ImmutableArray<string> LeftOver { get; init; } = [];

    /// <summary>Names asked for that no node or group has, each with the nearest known one.</summary>
    public ImmutableArray<(string Name, string? Nearest)> UnknownNodes { get; init; } = [];

    /// <summary>Faults of templates and of nodes that cannot be written.</summary>
    public ImmutableArray<Finding> Findings { get; init; } = [];

    /// <summary>What the folder shows: the stale, edited and left over files as findings in them.</summary>
    public ImmutableArray<Finding> OfFiles { get; init; } = [];

    /// <summary>True when all files hold what they should.</summary>
    public bool IsCurrent => Stale.IsEmpty && Edited.IsEmpty && UnknownNodes.IsEmpty && !Findings.Any(finding => finding.Severity is Severity.Error);
}
