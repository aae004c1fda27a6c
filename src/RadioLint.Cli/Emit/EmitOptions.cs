using System.Collections.Immutable;

namespace RadioLint.Cli.Emit;

/// <summary>What `emit` was asked for.</summary>
public sealed record EmitOptions
{
    /// <summary>The manifest's path as given; the record of what was issued lies beside it.</summary>
    public required string Manifest { get; init; }

    /// <summary>The folder for the headers; made when it is missing.</summary>
    public required string Out { get; init; }

    /// <summary>Nodes or groups by name; empty for all. External nodes are never written.</summary>
    public ImmutableArray<string> Nodes { get; init; } = [];

    /// <summary>Programs, hooks and a Makefile as well.</summary>
    public bool Programs { get; init; }

    /// <summary>A folder whose files replace the built-in templates of the same name.</summary>
    public string? Templates { get; init; }

    /// <summary>Writes nothing and only says what would change.</summary>
    public bool CheckOnly { get; init; }

    /// <summary>Overwrites files that were edited by hand.</summary>
    public bool Force { get; init; }

    /// <summary>A file of `target: prerequisite` lines for make and ninja.</summary>
    public string? Depfile { get; init; }

    /// <summary>A file that lists what was made, the record among it: one path a line.</summary>
    public string? MadeList { get; init; }

    /// <summary>A file that lists what the headers were made from: one path a line.</summary>
    public string? ReadList { get; init; }

    /// <summary>Other files that the manifest was read from, for the depfile and the list.</summary>
    public ImmutableArray<string> AlsoRead { get; init; } = [];
}
