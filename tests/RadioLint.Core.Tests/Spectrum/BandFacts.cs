using RadioLint.Spectrum;
using RadioLint.Tests.Hardware;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests.Spectrum;

/// <summary>Bands against facts/bands.csv, the instrument and section in each row.</summary>
public sealed class BandFacts
{
    [Fact]
    public void Every_country_of_the_plan_has_its_limit()
    {
        var rows = Published.Rows("bands.csv").Where(row => row["plan"] == "yes").ToList();
        var exercised = 0;
        foreach (var row in rows)
        {
            var countries = row.Split("countries");
            foreach (var country in countries.Length == 0 ? [null] : countries.Cast<string?>())
            {
                Agrees(Bands.For(country), country, row);
                exercised++;
            }
        }
        Assert.Equal((16, 60), (rows.Count, exercised));
        Assert.Equal(exercised - 1, Bands.All.Sum(rule => rule.Countries.Length));
    }

    private static void Agrees(BandRule rule, string? country, PublishedRow row)
    {
        Assert.Equal(country is null, rule.IsDefault);
        Assert.Equal(row.Number("low_mhz"), Ours.Megahertz(rule.Band.Low));
        Assert.Equal(row.Number("high_mhz"), Ours.Megahertz(rule.Band.High));
        Assert.Equal(country == "JP", rule.CertifiedOnly);
        // The row of the US and of Canada states the average; the peak is at most 20 dB higher (47 CFR 15.249 (e), 15.35).
        var isAverage = country is "US" or "CA";
        var limit = row.Number("max_eirp_dbm");
        Assert.Equal(isAverage ? limit + 20 : limit, rule.Limit.Centi / 100m);
        Assert.Equal<decimal?>(isAverage ? limit : null, rule.Average?.Centi / 100m);
        // 47 CFR 15.35 (c): averaged over 0.1 s; 15.205: a restricted band begins at 2483.5 MHz.
        Assert.Equal<long?>(isAverage ? 100_000L : null, rule.AverageOver?.Microseconds);
        Assert.Equal<decimal?>(isAverage ? 2483.5m : null, rule.ProtectedAbove is { } above ? Ours.Megahertz(above) : null);
    }

    [Theory, InlineData(null), InlineData("AQ"), InlineData("MY"), InlineData("us"), InlineData("")]
    public void Any_other_place_gets_the_default(string? country)
    {
        Assert.True(Bands.For(country).IsDefault);
        Assert.Equal("any other or unknown place", Bands.For(country).Region);
    }

    // ISO 3166-1 alpha-2: 249 codes in use.
    [Fact]
    public void Countries_are_those_of_the_standard()
    {
        Assert.Equal(249, Countries.Codes.Length);
        Assert.Equal(Countries.Codes.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal), Countries.Codes);
        Assert.All(Countries.Codes, code => Assert.Matches("^[A-Z]{2}$", code));
        Assert.All(Bands.All.SelectMany(rule => rule.Countries), code => Assert.True(Countries.IsKnown(code)));
        Assert.True(Countries.IsKnown("NO"));
        Assert.False(Countries.IsKnown("UK"));
        Assert.False(Countries.IsKnown("no"));
    }
}
