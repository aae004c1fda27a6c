using System.Collections.Immutable;
using RadioLint.Text;

namespace RadioLint.Findings;

/// <summary>How much a finding weighs, weakest first; the words are those of the manifest's `rules`.</summary>
public enum Severity
{
    Silent,
    Info,
    Warning,
    Error,
}

/// <summary>What is fixed about a rule. One record feeds the terminal, `explain`, JSON, the index and the compiler.</summary>
/// <param name="Id">Stable for ever: `RL` and four digits; the first digit is the module.</param>
/// <param name="Severity">The weight unless the finding or the user says otherwise.</param>
/// <param name="Title">What is wrong, in a few words.</param>
/// <param name="Limit">The threshold and where it is published.</param>
/// <param name="Since">The version that brought the rule.</param>
public sealed record Descriptor(string Id, Severity Severity, string Title, string Limit, string Since)
{
    /// <summary>Rules that stay quiet about a subject that this one has found fault with: one cause, one finding.</summary>
    public IReadOnlyList<string> Silences { get; init; } = [];

    /// <summary>True when an error of this rule means that a packet cannot be delivered as declared.</summary>
    public bool StopsDelivery { get; init; }

    /// <summary>True when it judges a network beside others of its site, so that it may find nothing where they are not checked in the same run.</summary>
    public bool ComparesNetworks { get; init; }

    /// <summary>True when the user may not give it another severity: the file could not be read as meant.</summary>
    public bool IsFixed { get; init; }
}

/// <summary>Another place that has a part in a finding: the other end of a mismatch, the first of two equal keys.</summary>
public readonly record struct RelatedPlace(Place Place, string Message);

/// <summary>One fault, at a place, said in one line.</summary>
/// <param name="Rule">What kind of fault.</param>
/// <param name="Place">Where to look first; never empty of meaning, never line 0.</param>
/// <param name="Message">What is wrong and by how much; no final full stop.</param>
/// <param name="Help">What to do; starts with a verb.</param>
public sealed record Finding(Descriptor Rule, Place Place, string Message, string Help)
{
    // They quote the file, which may hold line ends and texts of any length.
    public string Message { get; init; } = OneLine.Of(Message);

    public string Help { get; init; } = OneLine.Of(Help);

    /// <summary>Its weight here; rules whose weight depends on the margin set it, the user's settings change it last.</summary>
    public Severity Severity { get; init; } = Rule.Severity;

    public ImmutableArray<RelatedPlace> Related { get; init; } = ImmutableArray<RelatedPlace>.Empty;

    public ImmutableArray<Fix> Fixes { get; init; } = ImmutableArray<Fix>.Empty;

    /// <summary>What the finding is about, for silencing: findings on the same subject may have one cause. Null: the place itself.</summary>
    public object? Subject { get; init; }

    /// <summary>The node's name and its entry's: what an `allow` entry may call it.</summary>
    public ImmutableArray<string> NodeNames { get; init; } = ImmutableArray<string>.Empty;

    /// <summary>The link as `from to`, as an `allow` entry may call it.</summary>
    public string? LinkName { get; init; }

    /// <summary>True when the reader knew what was meant: where several forms are possible such a finding is kept, rather than a list of the forms.</summary>
    public bool IsTelling { get; init; }

    /// <summary>Set on a note that the rule waits for a fact; such notes are gathered into one RL8304 a node.</summary>
    public MissingFact? Missing { get; init; }
}

/// <summary>A fact that the manifest does not state.</summary>
/// <param name="Node">Whose fact.</param>
/// <param name="Key">The key that would state it, as a path below the node: `radio.antenna`.</param>
public sealed record MissingFact(Model.Node Node, string Key);
