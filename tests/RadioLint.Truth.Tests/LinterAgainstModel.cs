using System.Globalization;
using System.Text;
using Xunit;

namespace RadioLint.Tests.Truth;

/// <summary>
/// "No link error found" must equal "the chip model delivers and acknowledges as declared", in both directions. RADIOLINT_NETWORKS sets how many networks are
/// drawn, RADIOLINT_SEED the first seed.
/// </summary>
public sealed class LinterAgainstModel
{
    private const int InCi = 6_000;
    private const int APart = 500;

    [Fact]
    public void No_link_error_means_that_the_chip_model_delivers()
    {
        var wanted = Setting("RADIOLINT_NETWORKS", InCi);
        var first = (ulong)Setting("RADIOLINT_SEED", 1);
        var whole = new Tally();
        var parts = Enumerable.Range(0, (int)((wanted + APart - 1) / APart)).AsParallel().AsOrdered().Select(part =>
        {
            var tally = new Tally();
            var seed = first * 1_000_000_007UL + (ulong)part;
            var draw = new DraftDraw(seed);
            while (tally.Networks < Math.Min(APart, wanted - part * (long)APart) && tally.Disagreements.Count < 20)
                tally.Add(seed, draw.Next());
            return tally;
        });
        foreach (var part in parts)
            whole.Add(part);
        TestContext.Current.TestOutputHelper?.WriteLine(Table(whole));
        Assert.True(whole.Disagreements.Count == 0, Shown(whole));
        Assert.True(whole.Networks == wanted, Table(whole));
        Assert.True(whole.Delivered * 5 >= whole.Networks && (whole.Networks - whole.Delivered) * 5 >= whole.Networks, "a verdict is rarer than a fifth\n" + Table(whole));
        Assert.True(Tally.Listed.All(rule => whole.OnlyError.GetValueOrDefault(rule) * 200 >= whole.Networks), "a rule is the only error in less than 0.5 %\n" + Table(whole));
    }

    private static long Setting(string name, long otherwise) =>
        long.TryParse(Environment.GetEnvironmentVariable(name), NumberStyles.None, CultureInfo.InvariantCulture, out var value) ? value : otherwise;

    private static string Table(Tally tally)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"{tally.Networks:N0} networks, {tally.Unasked:N0} more that put no question; no link error in {100.0 * tally.Delivered / tally.Networks:0.0} %\n");
        foreach (var rule in Tally.Listed)
            text.Append(CultureInfo.InvariantCulture, $"{rule} alone {100.0 * tally.OnlyError.GetValueOrDefault(rule) / tally.Networks:0.00} %\n");
        return text.ToString();
    }

    private static string Shown(Tally tally)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"{tally.Disagreements.Count} disagreements in {tally.Networks:N0} networks\n");
        foreach (var group in tally.Disagreements.GroupBy(one => (string.Join(" ", one.Verdict.Errors), one.Verdict.Fault is null)).OrderByDescending(group => group.Count()).Take(12))
        {
            var (seed, draft, verdict) = group.First();
            var small = Tally.Shrink(draft, verdict);
            var now = Verdict.Of(small)!;
            text.Append(CultureInfo.InvariantCulture, $"\n{group.Count()} times, first with seed {seed}: linter {(now.Errors.Count == 0 ? "finds nothing" : string.Join(" ", now.Errors))}, model {now.Fault ?? "delivers"}\n{small.Text()}");
        }
        return text.ToString();
    }
}
