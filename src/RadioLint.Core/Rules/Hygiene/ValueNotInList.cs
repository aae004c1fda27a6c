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

    /// <summary>A country code that is none. A code that differs in one letter is another country's, so only case and one common slip are mended.</summary>
    public static Finding Country(Place place, string found, IReadOnlyList<string> codes)
    {
        var meant = found == "UK" ? "GB" : codes.FirstOrDefault(code => string.Equals(code, found, StringComparison.OrdinalIgnoreCase));
        return new(Rule, place, $"`{found}` is not a country code of ISO 3166",
            meant is not null ? $"write `{meant}`" : "write the two letters of the country that the network stands in, such as `GB`")
        {
            Fixes = meant is null ? ImmutableArray<Fix>.Empty : ImmutableArray.Create(Remedy.Offer(place, meant == "NO" ? "\"NO\"" : meant, $"Write `{meant}`")),
        };
    }
}
