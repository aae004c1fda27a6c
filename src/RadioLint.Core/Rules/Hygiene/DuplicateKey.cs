using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Manifest;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8002: a key stands twice in one map, so one of the two values is lost.</summary>
public static class DuplicateKey
{
    public static readonly Descriptor Rule = new(
        "RL8002", Severity.Error, "Duplicate key", "YAML 1.2.2 section 3.2.1.1: keys of a mapping are unique", "0.1")
    {
        IsFixed = true,
    };

    public static Finding At(LocatedScalar again, LocatedScalar first) =>
        new(Rule, again.Place, FormattableString.Invariant($"the key `{again.Text}` already stands in line {first.Place.From.Line}"),
            "keep one of the two")
        {
            Related = ImmutableArray.Create(new RelatedPlace(first.Place, $"`{first.Text}` stands here first")),
        };
}
