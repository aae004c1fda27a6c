using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Rules.Range;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>What must be met at all, and which demands cannot be met together.</summary>
internal static class Feasibility
{
    // Up to so many demands every two and three of them are tried before one after the other is left out.
    private const int Few = 24;

    // A set that conflicts is found among the first so many things that fail.
    private const int Most = 8;

    /// <summary>True where a channel is left, every open power has a lawful step, and every link that can be judged has some margin.</summary>
    public static bool IsMet(Question question, Situation at) => Causes(question, at).All(cause => cause.IsMet(cause.Demands));

    /// <summary>The smallest set of demands that conflict that is found: without any one of them the others can be met. Empty where all can.</summary>
    public static ImmutableArray<Demand> Conflict(Question question)
    {
        if (question.Pipes.Conflicts.Count > 0)
            return question.Pipes.Conflicts.OrderBy(one => one.Length).First();
        // What fails at each rate; where the rate is written, it is itself a demand.
        var failing = new List<List<Cause>>();
        foreach (var rate in question.Rates)
        {
            failing.Add([.. Causes(question, question.At(rate)).Where(cause => !cause.IsMet(cause.Demands)).Take(Most)]);
            if (failing[failing.Count - 1].Count == 0)
                return ImmutableArray<Demand>.Empty;
        }
        var written = question.Rates is [null] ? WrittenRate(question.Network) : null;
        if (written is not null)
            failing.AddRange(AtOtherRates(question, written));
        var demands = failing.SelectMany(causes => causes).SelectMany(cause => cause.Demands).Distinct().ToList();
        if (written is null)
            return Smallest(demands, left => failing.Exists(causes => causes.TrueForAll(cause => cause.IsMetBy(left))));
        demands.Add(RateDemand(written));
        return Smallest(demands, left => failing.Take(left.Contains(RateDemand(written)) ? 1 : failing.Count).Any(causes => causes.TrueForAll(cause => cause.IsMetBy(left))));
    }

    /// <summary>Something that fails or not by itself: a channel, a node's power, a link.</summary>
    /// <param name="IsMet">Whether it can be had under some of its demands.</param>
    private sealed record Cause(List<Demand> Demands, Func<List<Demand>, bool> IsMet)
    {
        public bool IsMetBy(List<Demand> left) => IsMet([.. Demands.Where(left.Contains)]);
    }

    private static IEnumerable<Cause> Causes(Question question, Situation at)
    {
        if (at.IsChannelOpen)
        {
            yield return new(at.Channels.Demands.ConvertAll(one => one.Demand), left =>
            {
                var kept = at.Channels.Demands.Where(one => left.Contains(one.Demand)).ToList();
                return Enumerable.Range(0, ChannelCosts.Channels).Any(channel => kept.TrueForAll(one => one.Allows[channel]));
            });
        }
        foreach (var variable in question.Variables.Where(variable => variable.IsOpen && variable.Steps.IsEmpty))
            yield return new([Limit(question.Network), new(variable.First.Radio.Place.FirstLine, $"`{variable.First.Label}` radiates what its front end and antenna make of the least step")], left => left.Count < 2);
        foreach (var hop in at.Air.Hops.Where(hop => hop.SpeaksForGroup && !hop.Link.RidesInAcknowledgement).OrderBy(hop => hop.Label, NaturalOrder.Instance).ThenBy(hop => hop.Link.PayloadName?.Value, StringComparer.Ordinal))
        {
            if (hop.Sender.Air.ChosenRate is not { } rate || hop.Receiver.Air.ChosenRate != rate)
                continue;
            var judged = new JudgedHop(hop, rate, hop.IsAcknowledged && !hop.Link.IsBroadcast);
            if (at.PathOf(judged) is not { } facts)
                continue;
            yield return Way(question, at, facts, hop.Sender, hop.Receiver);
            if (judged.Returns)
                yield return Way(question, at, facts, hop.Receiver, hop.Sender);
        }
    }

    private static Cause Way(Question question, Situation at, PathFacts facts, Node from, Node to)
    {
        var (network, link) = (question.Network, facts.Judged.Hop.Link);
        var distance = new Demand(link.Distance!.Place, $"`{from.Label}` is heard by `{to.Label}` over {link.Distance.Value.High}{(link.Through.IsEmpty ? "" : " and what stands between")}");
        var limit = Limit(network);
        var power = from.Power is not null && !question.Freedom.Power(from) ? new Demand(from.Power.Place.FirstLine, $"`{from.Label}` sends at {from.Power.Value}") : null;
        List<Demand> demands = power is null ? [distance, limit] : [distance, limit, power];
        return new(demands, left =>
        {
            // What is not known of the node forbids nothing.
            if (!left.Contains(distance) || from is not { Part: { } part, Power: { } sent })
                return true;
            var steps = power is not null && left.Contains(power) ? [sent.Value]
                : part.PowerSteps.Select(step => step.Step).Where(step => power is not null || !left.Contains(limit) || PowerVariable.IsLawful(network, from, step));
            return steps.Any(step => facts.Worst(at.Powers(null).At(from, step), to) is not { } worst || worst.Margin.Centi >= 0);
        });
    }

    // The same question at the rates that a written one rules out.
    private static IEnumerable<List<Cause>> AtOtherRates(Question question, Manifest.Stated<RateSetting> written)
    {
        var freed = new Question(question.Network, question.Measured, new(written.Place));
        return freed.Rates.Where(rate => rate is not null && rate != written.Value.Rate)
            .Select(rate => Causes(freed, freed.At(rate)).Where(cause => !cause.IsMet(cause.Demands)).Take(Most).ToList());
    }

    private static Manifest.Stated<RateSetting>? WrittenRate(Network network) =>
        network.Nodes.Select(node => node.Air.Rate).OfType<Manifest.Stated<RateSetting>>().FirstOrDefault(rate => rate.Value.Rate is not null);

    private static Demand RateDemand(Manifest.Stated<RateSetting> rate) => 
        new(rate.Place.FirstLine, $"the rate is {rate.Value.Rate!.Value.InManifest()}{(rate.IsDefault ? ", as none is written" : "")}");

    private static Demand Limit(Network network) =>
        new(network.RegionCode?.Place ?? network.Place.FirstLine, $"nobody radiates more than {network.Band.Limit} EIRP in {Words.Region(network)}");

    private static ImmutableArray<Demand> Smallest(List<Demand> demands, Func<List<Demand>, bool> canBeMet)
    {
        if (demands.Count <= Few)
        {
            foreach (var size in new[] { 1, 2, 3 })
            {
                if (Choose(demands, size).FirstOrDefault(few => !canBeMet(few)) is { } least)
                    return ImmutableArray.CreateRange(least);
            }
        }
        var left = demands.ToList();
        foreach (var demand in demands)
        {
            var without = left.Where(one => !ReferenceEquals(one, demand)).ToList();
            if (!canBeMet(without))
                left = without;
        }
        return ImmutableArray.CreateRange(left);
    }

    private static IEnumerable<List<Demand>> Choose(List<Demand> demands, int size, int from = 0)
    {
        if (size == 0)
        {
            yield return [];
            yield break;
        }
        for (var i = from; i < demands.Count; i++)
        {
            foreach (var rest in Choose(demands, size - 1, i + 1))
                yield return [demands[i], .. rest];
        }
    }
}
