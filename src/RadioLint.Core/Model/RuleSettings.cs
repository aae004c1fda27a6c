using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Text;

namespace RadioLint.Model;

/// <summary>One entry of `rules`: a rule's severity.</summary>
public sealed record SeveritySetting(LocatedScalar Rule, Stated<Severity> Severity);

/// <summary>One entry of `allow`: a finding that somebody has looked at and lets stand.</summary>
public sealed record Allowance(
    Place Place, Stated<string>? Rule, Stated<string>? Node, Stated<string>? Link, Stated<string>? Because, Stated<DateTime>? Until);

/// <summary>The `rules` of a manifest or of a `.radiolint.yaml`.</summary>
public sealed record RuleSettings(
    ImmutableArray<SeveritySetting> Severities, ImmutableArray<Allowance> Allowances, ImmutableArray<Stated<string>> Locked)
{
    public static readonly RuleSettings None = new(
        ImmutableArray<SeveritySetting>.Empty, ImmutableArray<Allowance>.Empty, ImmutableArray<Stated<string>>.Empty);
}
