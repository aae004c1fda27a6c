using System.Globalization;
using RadioLint.Survey;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests.Survey;

/// <summary>Systems that the shape of what was heard gives away, at sites whose truth is known.</summary>
public sealed class SystemTests(ITestOutputHelper output)
{
    // None of the seeds that the thresholds were found with.
    private const int Sites = 60, FirstSeed = 5_000, FirstOfPairs = 9_000;

    [Fact]
    public void Nothing_is_invented_where_only_hoppers_are()
    {
        var invented = Enumerable.Range(FirstSeed, Sites).Sum(seed => Heard(SyntheticSite.Hopping(seed)).Count);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{invented} systems recognised at {Sites} sites with hoppers alone"));
        Assert.Equal(0, invented);
    }

    [Theory, InlineData(true, 0.85, 0.1), InlineData(false, 0.5, 0.1)]
    public void Systems_that_are_well_heard_are_found_and_few_are_invented(bool apart, double least, double most)
    {
        var sites = Enumerable.Range(FirstSeed, Sites).Select(seed => SyntheticSite.WithSystems(seed, apart)).Select(site => (Site: site, Heard: Heard(site))).ToList();
        foreach (var kind in Enum.GetValues<SystemKind>())
        {
            var (there, found, invented) = (0, 0, 0);
            foreach (var (site, all) in sites)
            {
                var truth = Truth(site, kind);
                var heard = all.Where(each => each.Kind == kind).Select(each => each.Channel).ToList();
                there += truth.Count;
                found += truth.Count(heard.Contains);
                invented += heard.Count(each => !truth.Contains(each));
            }
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{kind}, {(apart ? "apart" : "anywhere")}: {found} of {there} found, {invented} invented, at {Sites} sites"));
            Assert.True(found >= least * there, $"{kind}: only {found} of {there} found");
            Assert.True(invented <= most * there, $"{kind}: {invented} invented beside {there}");
        }
    }

    [Fact]
    public void Pairs_of_wifi_channels_are_found_and_told_from_two_that_abut()
    {
        var sites = Enumerable.Range(FirstOfPairs, Sites).Select(SyntheticSite.WithPair).Select(site => (site.Pair, Heard: Heard(site).Where(each => each.Kind is SystemKind.Wifi).ToList())).ToList();
        var found = sites.Count(site => site.Heard.Exists(each => each.Channel == site.Pair!.Value.Lower && each.Partner == site.Pair.Value.Upper));
        var invented = sites.Sum(site => site.Heard.Count(each => each.Partner is null ? each.Channel != site.Pair!.Value.Lower && each.Channel != site.Pair.Value.Upper : each.Channel != site.Pair!.Value.Lower));
        var taken = Enumerable.Range(FirstOfPairs, Sites).Sum(seed => Heard(SyntheticSite.WithTwoThatAbut(seed)).Count(each => each.Partner is not null));
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"pairs of Wi-Fi channels: {found} of {Sites} found, {invented} others invented; {taken} of {Sites} that abut taken for one"));
        Assert.True(found >= 0.85 * Sites && invented <= 0.1 * Sites && taken <= 0.1 * Sites, $"{found} {invented} {taken}");
    }

    private static List<int> Truth(SyntheticSite site, SystemKind kind) => kind switch
    {
        SystemKind.Wifi => [.. site.Wifis.Select(each => each.Channel)],
        SystemKind.Ieee802154 => [.. site.Ieee802154s.Select(each => each.Channel)],
        _ => site.Announcers.Any() ? [37, 38, 39] : [],
    };

    private static List<SystemInBand> Heard(SyntheticSite site) =>
        [.. SurveyJudgement.Rank(SmallNetwork.Read(SmallNetwork.With("rate: 1 Mbps")), [site.Survey("hub", 4_000, 1_000)]).Systems];
}
