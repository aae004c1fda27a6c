using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Text;

namespace RadioLint.Rules.Hygiene;

/// <summary>Edits that several of the reading rules offer.</summary>
internal static class Remedy
{
    /// <summary>Another value for a whole scalar, between the same quotes; none when the scalar says more than what was read.</summary>
    public static ImmutableArray<Fix> Write(LocatedScalar scalar, string read, string meant)
    {
        var written = scalar.Place.Text;
        string? text = written == read ? meant : written == $"\"{read}\"" ? $"\"{meant}\"" : written == $"'{read}'" ? $"'{meant}'" : null;
        return text is null ? ImmutableArray<Fix>.Empty : ImmutableArray.Create(Offer(scalar.Place, text, $"Write `{meant}`"));
    }

    public static Fix Offer(Place place, string text, string title) => new(FixGrade.Offered, title, ImmutableArray.Create(Edit.Value(place, text)));
}
