using System.Diagnostics;
using System.Globalization;
using RadioLint.Model;
using RadioLint.Planning;
using RadioLint.Text;
using Xunit;

namespace RadioLint.Tests.Planning;

/// <summary>The search against trying everything on small networks, and against its own bound on large ones.</summary>
public sealed class CheapestPlans(ITestOutputHelper output)
{
    private const int Small = 1_000;
    private const int Large = 30;

    // More plans than this are not tried one by one: another network is drawn.
    private const long MostPlans = 8_000;

    [Fact]
    public void Nothing_is_cheaper_on_a_thousand_networks_of_at_most_4_nodes()
    {
        var (networks, plans, drawn, shapes) = (0, 0L, 0UL, new HashSet<string>());
        while (networks < Small)
        {
            drawn++;
            Assert.True(drawn < 20 * Small, $"only {networks} of {drawn} networks are small enough");
            var manifest = PartialManifest.Draw(new(3, drawn), 1 + (int)(drawn % 3), drawn % 3 == 0 ? 3 : 1, isNarrow: true);
            var network = Read(manifest);
            if (network.Nodes.Length > 4)
                continue;
            var question = new Question(network, drawn % 2 == 0 ? Measured(drawn) : null, Freedom.AsWritten);
            if (!Feasibility.Conflict(question).IsEmpty || Plans(question) > MostPlans || PlanSearch.Solve(question) is not { } found)
                continue;
            var least = Everything(question).Min(answer => PlanCost.Of(question, answer));
            Assert.True(least == found.Cost, $"draw {drawn}: {found.Cost} instead of {least}\n{manifest.Text()}");
            Assert.Equal(found.Cost, PlanCost.Of(question, found.Answer));
            Assert.Equal(found.Cost, found.Bound);
            (networks, plans) = (networks + 1, plans + Plans(question));
            shapes.Add($"{question.Rates.Length} {found.Answer.Steps.Length} {found.Answer.Delays.Length} {found.Answer.Pipes.Length}");
        }
        output.WriteLine($"{networks} networks out of {drawn} drawn, {plans} plans tried, {shapes.Count} kinds of question");
        Assert.True(shapes.Count > 9 && plans > 1_000_000);
    }

    [Fact]
    public void The_gap_to_the_bound_is_small_on_networks_of_40_nodes()
    {
        var (gaps, times) = (new List<double>(), new List<double>());
        for (var drawn = 1UL; gaps.Count < Large; drawn++)
        {
            var manifest = PartialManifest.Draw(new(4, drawn), 39, 1);
            var network = Read(manifest);
            Assert.Equal(40, network.Nodes.Length);
            var clock = Stopwatch.StartNew();
            var plan = Filling.Plan(network, Measured(drawn));
            var time = clock.Elapsed.TotalMilliseconds;
            if (!plan.Conflict.IsEmpty)
                continue;
            Assert.True(plan.Bound > 0 && plan.Bound <= plan.Cost, $"{plan.Bound} {plan.Cost}");
            if (Environment.GetEnvironmentVariable("RADIOLINT_GAPS") is not null)
            {
                var question = new Question(network, Measured(drawn), Freedom.AsWritten);
                var found = PlanSearch.Solve(question)!;
                var at = question.At(found.Answer.Rate);
                output.WriteLine($"draw {drawn}: cost {plan.Cost} bound {plan.Bound}, traffic {at.Traffic}, channel {at.ChannelCost(found.Answer.Channel)}, powers {PowerSearch.Solve(at.Powers(found.Answer.Channel)) is var p} {p.Cost} {p.Bound}, delays {at.Delays.Value.Cost} {at.Delays.Value.Bound} of {at.Repeats.Senders.Length} with {at.Repeats.Senders.Max(one => one.Delays.Length)}, {time:0} ms, rates {question.Rates.Length}, fixed {plan.Fixed.Length}");
            }
            gaps.Add(100.0 * (plan.Cost - plan.Bound) / plan.Bound);
            times.Add(time);
        }
        gaps.Sort();
        times.Sort();
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{Large} networks of 40 nodes: gap to the bound {gaps[Large / 2]:0.00} % in the median, {gaps[^1]:0.00} % at most; a plan in {times[Large / 2]:0} ms in the median, {times[^1]:0} ms at most"));
        Assert.True(gaps[Large / 2] <= 5, $"{gaps[Large / 2]} %");
    }

    private static Network Read(PartialManifest manifest) => Linter.Read(new SourceText("drawn.radio.yaml", manifest.Text()), _ => null)!;

    // The same for the same seed; some channels are not listened to.
    private static ChannelCosts Measured(ulong seed)
    {
        var dice = new CsCheck.PCG(5, seed);
        return new([.. Enumerable.Range(0, ChannelCosts.Channels).Select(_ => dice.Next(20) == 0 ? (Units.Share?)null : new Units.Share(dice.Next(60_000)))]);
    }

    private static long Plans(Question question) => question.Rates.Sum(rate => question.At(rate) is var at && Feasibility.IsMet(question, at)
        ? at.Choosable.LongCount() * question.Variables.Aggregate(1L, (product, one) => product * one.Steps.Length) * at.Repeats.Senders.Aggregate(1L, (product, one) => product * one.Delays.Length) * Pipes(question).Count
        : 0);

    private static IEnumerable<Answer> Everything(Question question)
    {
        var (allSteps, allPipes) = (Product([.. question.Variables.Select(one => one.Steps.Length)]), Pipes(question));
        return from rate in question.Rates
               let at = question.At(rate)
               where Feasibility.IsMet(question, at)
               let allDelays = Product([.. at.Repeats.Senders.Select(one => one.Delays.Length)])
               from channel in at.Choosable
               from steps in allSteps
               from delays in allDelays
               from pipes in allPipes
               select new Answer(rate, channel, steps, delays, pipes);
    }

    // Every way to give those who arrive at one receiver different pipes.
    private static List<int[]> Pipes(Question question) =>
        [.. Product([.. question.Pipes.Uses.Select(_ => 6)]).Where(pipes => question.Pipes.Uses.Zip(pipes, (use, pipe) => (use.Receiver, pipe)).Distinct().Count() == pipes.Length)];

    private static List<int[]> Product(int[] sizes)
    {
        var all = new List<int[]> { Array.Empty<int>() };
        foreach (var size in sizes)
            all = [.. all.SelectMany(head => Enumerable.Range(0, size).Select(next => (int[])[.. head, next]))];
        return all;
    }
}
