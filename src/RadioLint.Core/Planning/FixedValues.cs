using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Planning;

/// <summary>What written values cost: each is let go by itself, and the plan made anew.</summary>
internal static class FixedValues
{
    // Each costs a search; a network that writes more has written nearly everything.
    private const int Most = 100;

    /// <summary>Of networks with more kinds of nodes it is not worked out.</summary>
    public const int MostKinds = 400;

    public static ImmutableArray<FixedCost> Of(Question question, Solution now)
    {
        var network = question.Network;
        if (network.DistinctNodes.Length > MostKinds)
            return ImmutableArray<FixedCost>.Empty;
        var costs = new List<FixedCost>();
        foreach (var (target, key, place, value, better) in Written(network).GroupBy(one => one.Place).Select(same => same.First()).Take(Most))
        {
            var freed = key == "power" ? question.LettingPowerGo(place) : new Question(network, question.Measured, new(place));
            if (PlanSearch.Solve(freed) is { } free && free.Cost < now.Cost && better(freed, free) is { } instead && instead != value)
                costs.Add(new(target, key, place, value, now.Cost, free.Cost, instead));
        }
        return ImmutableArray.CreateRange(costs.OrderBy(one => one.IfFree).ThenBy(one => one.Key, StringComparer.Ordinal).ThenBy(one => (one.Target as Node)?.Name ?? "", NaturalOrder.Instance));
    }

    private static IEnumerable<(object? Target, string Key, Place Place, string Value, Func<Question, Solution, string?> Better)> Written(Network network)
    {
        foreach (var node in network.Nodes.Where(node => !node.IsExternal).OrderBy(node => node.Name, NaturalOrder.Instance))
        {
            var air = node.Air;
            if (air.Channel is { IsDefault: false, Value.Number: { } channel, Place: var at })
                yield return (Target(network.Air.Channel, at, node), "air.channel", at, FormattableString.Invariant($"{channel}"), (_, free) => free.Answer.Channel is { } one ? FormattableString.Invariant($"{one}") : null);
            if (air.Rate is { IsDefault: false, Value.Rate: { } rate, Place: var place })
                yield return (Target(network.Air.Rate, place, node), "air.rate", place, rate.InManifest(), (_, free) => free.Answer.Rate?.InManifest());
            if (node.Power is { IsDefault: false } power)
                yield return (node, "power", power.Place, $"{power.Value}", (question, free) => Power(question, free, power.Place));
            if (air.Retry.Delay is { IsDefault: false, Value: { IsOpen: false } delay, Place: var written })
            {
                var value = delay.Delays.Length == 1 ? $"{delay.Delays[0].Value}" : $"[{string.Join(", ", delay.Delays.Select(one => one.Value))}]";
                yield return (Target(network.Air.Retry.Delay, written, node), "retry.delay", written, value, (question, free) => Delays(question, free, written));
            }
        }
    }

    private static Node? Target<T>(Stated<T>? ofNetwork, Place place, Node node) => ofNetwork?.Place == place ? null : node;

    private static string? Power(Question question, Solution free, Place place)
    {
        for (var i = 0; i < question.Variables.Length; i++)
        {
            if (question.Variables[i].Stated.Place == place)
                return $"{question.Variables[i].Steps[free.Answer.Steps[i]]}";
        }
        return null;
    }

    // In the order of the senders' names, each once.
    private static string? Delays(Question question, Solution free, Place place)
    {
        var senders = question.At(free.Answer.Rate).Repeats.Senders;
        var delays = Enumerable.Range(0, senders.Length).Where(i => senders[i].Sender.Air.Retry.Delay?.Place == place)
            .Select(i => senders[i].Delays[free.Answer.Delays[i]]).Distinct().ToList();
        return delays.Count switch { 0 => null, 1 => $"{delays[0]}", _ => $"[{string.Join(", ", delays)}]" };
    }
}
