using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>What a region allows a fixed channel without hopping. Engineering help: the rules of the place of use govern.</summary>
public sealed record BandRule
{
    /// <summary>Country codes (ISO 3166-1 alpha-2); empty in the default.</summary>
    public required ImmutableArray<string> Countries { get; init; }

    /// <summary>The region in words, for messages.</summary>
    public required string Region { get; init; }

    public required Between<Frequency> Band { get; init; }

    /// <summary>Most EIRP, as a peak; the limit itself is inside.</summary>
    public required PowerLevel Limit { get; init; }

    /// <summary>Most EIRP on average over <see cref="AverageOver"/>; null where only the peak is limited.</summary>
    public required PowerLevel? Average { get; init; }

    public required Duration? AverageOver { get; init; }

    /// <summary>From here upward only stray emission is allowed; null where the region has no such band.</summary>
    public required Frequency? ProtectedAbove { get; init; }

    /// <summary>True where only certified equipment may send.</summary>
    public required bool CertifiedOnly { get; init; }

    public required Origin Origin { get; init; }

    /// <summary>True for the planning default of a place that no entry covers.</summary>
    public required bool IsDefault { get; init; }

    public string? Note => Origin.Note;

    /// <summary>Instrument and section, for messages.</summary>
    public string Citation => Origin.Citation;
}

/// <summary>The band rules that ship with the library.</summary>
public static class Bands
{
    private static readonly Lazy<(ImmutableArray<BandRule> Rules, BandRule Default)> Table = new(() => DataFile.Read("Spectrum/bands.yaml", BandKeys.File));

    /// <summary>In the order of the data file, the default last.</summary>
    public static ImmutableArray<BandRule> All => Table.Value.Rules.Add(Table.Value.Default);

    /// <summary>The rule for a country code; the default for a country in no entry and for none.</summary>
    public static BandRule For(string? country) =>
        Table.Value.Rules.FirstOrDefault(rule => country is not null && rule.Countries.Contains(country, StringComparer.Ordinal)) ?? Table.Value.Default;
}
