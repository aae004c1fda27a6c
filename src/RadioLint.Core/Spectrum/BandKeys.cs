using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Hardware.Keys;
using RadioLint.Manifest;
using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>The keys of the file of bands.</summary>
internal static class BandKeys
{
    private static readonly Key<ImmutableArray<string>> Countries = Figure.List("countries", Scalars.Reference, "country codes");

    private static readonly Key<ImmutableArray<BandRule>> Rules =
        Figure.List("bands", Rule("a band", [Countries], s => s.The(Countries)), "by country");

    private static readonly Key<BandRule> Default =
        Figure.Plain("default", Rule("the default band", [], _ => ImmutableArray<string>.Empty), "any other place");

    public static readonly MapShape<(ImmutableArray<BandRule> Rules, BandRule Default)> File =
        new("the file of bands", [Rules, Default, Remark.Key("sources", "documents")], s => (s.The(Rules), s.The(Default)));

    // A key belongs to one map only, so each of the two maps gets keys of its own.
    private static MapShape<BandRule> Rule(string what, Key[] more, Func<Settings, ImmutableArray<string>> countries)
    {
        var region = Figure.Plain("region", Scalars.Text, "the region in words");
        var band = Figure.Plain("band", Quantities.Frequencies, "what it allows");
        var limit = Figure.Plain("limit", Quantities.PowerLevel, "most EIRP, peak");
        var average = new Key<PowerLevel>("average", Quantities.PowerLevel, "most EIRP, average");
        var over = new Key<Duration>("average-over", Quantities.Duration, "time of the average");
        var above = new Key<Frequency>("protected-above", Quantities.Frequency, "where a protected band begins");
        var certified = new Key<bool>("certified-only", Scalars.Truth, "whether only certified equipment may send");
        return Figure.Entry<BandRule>(
            what,
            [.. more, region, band, limit, average, over, above, certified],
            (s, origin) => new()
            {
                Countries = countries(s),
                Region = s.The(region),
                Band = s.The(band),
                Limit = s.The(limit),
                Average = s.Written(average)?.Value,
                AverageOver = s.Written(over)?.Value,
                ProtectedAbove = s.Written(above)?.Value,
                CertifiedOnly = s.Written(certified)?.Value ?? false,
                Origin = origin,
                IsDefault = more.Length == 0,
            });
    }
}
