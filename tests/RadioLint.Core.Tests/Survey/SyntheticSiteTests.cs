using System.Globalization;
using RadioLint.Survey;
using RadioLint.Tests.Support;
using Xunit;

namespace RadioLint.Tests.Survey;

/// <summary>The ranking against sites whose truth is known: 200 of three densities, each drawn from a seed.</summary>
public sealed class SyntheticSiteTests(ITestOutputHelper output)
{
    private static readonly string[] Rates = ["250 kbps", "1 Mbps", "2 Mbps"];

    private static readonly int[] Kilobits = [250, 1_000, 2_000];

    private const int Sites = 200, Sweeps = 10_000;

    [Fact]
    public void The_true_best_is_among_the_first_three_and_intervals_hold_what_is_true()
    {
        var networks = Rates.Select(rate => SmallNetwork.Read(SmallNetwork.With("rate: " + rate, "radio: { antenna: printed }, height: 2 m", "radio: { antenna: printed }, height: 2 m", "distance: 5 m, setting: open"))).ToList();
        var results = new Tally[Sites];
        Parallel.For(0, Sites, new() { MaxDegreeOfParallelism = 2 }, i => { var seed = i + int.Parse(Environment.GetEnvironmentVariable("SEEDBASE") ?? "0"); results[i] = Judge(networks[seed / 3 % 3], seed); });
        foreach (var density in Enum.GetValues<Density>())
            Say($"{density}", [.. results.Where(each => each.Density == density)]);
        for (var i = 0; i < 3; i++)
            Say(Rates[i], [.. results.Where(each => each.Rate == i)]);
        for (var i = 0; i < 2; i++)
            Say(i == 0 ? "own" : "logger", [.. results.Where(each => each.Narrow == i)]);
        Say("all", results);
        Assert.InRange(Ratio(results, each => each.Hit, _ => 1), 0.95, 1);
        Assert.InRange(Ratio(results, each => each.Holds, each => each.Channels), 0.92, 0.98);
    }

    private sealed record Tally(Density Density, int Hit, int HitTwo, int Holds, int Channels, int Above, int Below, double Regret, int Edge, int Bin, int Spread, int Rate, int Narrow);

    private static Tally Judge(RadioLint.Model.Network network, int seed)
    {
        var density = (Density)(seed % 3);
        var site = new SyntheticSite(seed, density);
        var ranking = SurveyJudgement.Rank(network, [site.Survey("hub", Sweeps, Kilobits[seed / 3 % 3], seed / 9 % 2 == 1)]);
        var legal = ranking.Ranked.ToList();
        var lost = legal.ToDictionary(each => each.Channel, each => site.Lost(each.Channel, -54, Kilobits[seed / 3 % 3]));
        var best = lost.Values.Min();
        var (holds, above, below) = (0, 0, 0);
        foreach (var each in legal)
        {
            var truth = site.Heard(each.Channel, Kilobits[seed / 3 % 3], seed / 9 % 2 == 1);
            if (truth * 1e6 > each.Interval.High.Millionths + 0.5)
                above++;
            else if (truth * 1e6 < each.Interval.Low.Millionths - 0.5)
                below++;
            else
                holds++;
        }
        if (legal.Take(3).Min(each => lost[each.Channel]) > best + 1e-9)
        {
            string D(int c) => $"{c}: rank {ranking.Channels[c].Rank} lost {lost[c]*100:F3} heard {string.Join(" ", Enumerable.Range(Math.Max(0,c - 3), Math.Min(7,126-c)).Select(e => $"{ranking.Channels[e].Busy.Millionths / 1e4:F2}"))} truth {string.Join(" ", Enumerable.Range(Math.Max(1,c - 3), 7).Select(e => $"{site.Heard(e, Kilobits[seed / 3 % 3], seed / 9 % 2 == 1) * 100:F2}"))}";
            Console.WriteLine($"MISS {seed} narrow {seed / 9 % 2} {density} {Rates[seed / 3 % 3]} BEST {D(lost.OrderBy(e => e.Value).First().Key)}\n   " + string.Join("\n   ", legal.Take(3).Select(e => D(e.Channel))) + "\n   " + string.Join(",", ranking.Systems.Select(e => $"{e.Kind}{e.Channel}")) + " TRUE " + string.Join(",", site.Wifis.Select(e => $"{e.Channel}({e.Level:F0},{e.Share:F2})")));
        }
        var first = legal.Take(3).Min(each => lost[each.Channel]);
        return new(density, first <= best + 1e-9 ? 1 : 0, first <= best + 0.001 ? 1 : 0, holds, legal.Count, above, below, lost[legal[0].Channel] - best,
            new[] { legal.Min(e => e.Channel), legal.Max(e => e.Channel), 23 }.Min(e => lost[e]) <= best + 1e-9 ? 1 : 0,
            legal.OrderBy(e => e.Busy.Millionths).Take(3).Min(e => lost[e.Channel]) <= best + 1e-9 ? 1 : 0, lost.Values.Count(e => e <= best + 1e-9), seed / 3 % 3, seed / 9 % 2);
    }

    private static double Ratio(IReadOnlyList<Tally> some, Func<Tally, double> part, Func<Tally, double> whole) => some.Sum(part) / some.Sum(whole);

    private void Say(string what, IReadOnlyList<Tally> some) => output.WriteLine(string.Create(CultureInfo.InvariantCulture,
        $"{what,-7} {some.Count,3} sites: best among first three {Ratio(some, each => each.Hit, _ => 1):P1}, within 0.1 % {Ratio(some, each => each.HitTwo, _ => 1):P1}; intervals hold {Ratio(some, each => each.Holds, each => each.Channels):P1} of {some.Sum(each => each.Channels)}, truth above {Ratio(some, each => each.Above, each => each.Channels):P1}, below {Ratio(some, each => each.Below, each => each.Channels):P1}; first loses {some.Average(each => each.Regret):P2} more than the best; EDGE {Ratio(some, each => each.Edge, _ => 1):P1} BIN {Ratio(some, each => each.Bin, _ => 1):P1} TIES {some.Average(each => each.Spread):F1}"));
}
