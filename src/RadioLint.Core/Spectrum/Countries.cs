using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Hardware.Keys;
using RadioLint.Manifest;

namespace RadioLint.Spectrum;

/// <summary>The country codes that a manifest may name as its region: ISO 3166-1 alpha-2.</summary>
public static class Countries
{
    private static readonly Key<int> Count = Figure.Plain("count", DataScalars.Whole, "how many codes");
    private static readonly Key<ImmutableArray<string>> Listed = Figure.List("codes", Scalars.Reference, "the codes");

    internal static readonly MapShape<ImmutableArray<string>> File =
        Figure.Entry<ImmutableArray<string>>("the file of countries", [Count, Listed, Remark.Key("sources", "documents")], (s, _) => s.The(Listed));

    private static readonly Lazy<ImmutableArray<string>> Table = new(() => DataFile.Read("Spectrum/countries.yaml", File));

    /// <summary>In ordinal order.</summary>
    public static ImmutableArray<string> Codes => Table.Value;

    /// <summary>True for a code of two capital letters that stands for a country.</summary>
    public static bool IsKnown(string code) => Codes.BinarySearch(code, StringComparer.Ordinal) >= 0;
}
