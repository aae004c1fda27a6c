using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>RL8005: a word or number that is not among those the key, or the part, allows.</summary>
public static class ValueNotInList
{
    public static readonly Descriptor Rule = new(
        "RL8005", Severity.Error, "Value not in the list", "the tables of docs/manifest.md; the part's profile", "0.1")
    {
        IsFixed = true,
    };

    public static Finding At(Place place, string found, string what, IEnumerable<string> allowed)
    {
        var words = allowed.ToList();
        return At(place, found, what, words, Nearest.To(found, words));
    }

    public static Finding At(Place place, string found, string what, IReadOnlyList<string> allowed, string? nearest) =>
        new(Rule, place, $"`{found}` is not {what}",
            nearest is not null && allowed.Count > 8
                ? $"write `{nearest}`"
                : $"use one of {string.Join(", ", allowed)}" + (nearest is null ? "" : $"; the nearest is `{nearest}`"))
        {
            Fixes = nearest is null
                ? ImmutableArray<Fix>.Empty
                : ImmutableArray.Create(new Fix(FixGrade.Offered, $"Write `{nearest}`", ImmutableArray.Create(Edit.Value(place, nearest)))),
        };
}
