using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8003: a key that the manifest does not know; most are slips of the pen, and a slip would be silently without effect.</summary>
public static class UnknownKey
{
    public static readonly Descriptor Rule = new(
        "RL8003", Severity.Error, "Unknown key", "the tables of docs/manifest.md", "0.1")
    {
        IsFixed = true,
    };

    public static Finding At(LocatedScalar key, string what, IEnumerable<string> known, string? nearest)
    {
        var names = known.ToList();
        return new(Rule, key.Place, $"{what} has no key `{key.Text}`",
            nearest is not null
                ? $"write `{nearest}`, or start the name with `x-` for a note of your own"
                : KeyPlaces.Of(key.Text) is { } elsewhere
                ? $"move it: `{key.Text}` is a key of {elsewhere}; or start the name with `x-` for a note of your own"
                : $"use one of {string.Join(", ", names)}, or start the name with `x-` for a note of your own")
        {
            Fixes = nearest is null
                ? ImmutableArray<Fix>.Empty
                : ImmutableArray.Create(new Fix(FixGrade.Offered, $"Write `{nearest}`", ImmutableArray.Create(Edit.Value(key.Place, nearest)))),
        };
    }
}
