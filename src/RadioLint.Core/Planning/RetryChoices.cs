using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Planning;

/// <summary>Delays and numbers of repetitions, each with its reason: one line for an entry, a list where its nodes need several.</summary>
internal static class RetryChoices
{
    // A list longer than this says no more than the one for each node.
    private const int Longest = 64;

    public static IEnumerable<Choice> Of(Question question, Solution solution)
    {
        var repeats = question.At(solution.Answer.Rate).Repeats;
        var turns = Turns(question);
        var chosen = Enumerable.Range(0, repeats.Senders.Length).Where(i => repeats.Senders[i].IsOpen && turns.ContainsKey(repeats.Senders[i].Sender.Name))
            .Select(i => (Repeater: repeats.Senders[i], Node: turns[repeats.Senders[i].Sender.Name].Node, turns[repeats.Senders[i].Sender.Name].Turn, Delay: repeats.Senders[i].Delays[solution.Answer.Delays[i]])).ToList();
        foreach (var same in chosen.GroupBy(one => (one.Node.Entry, one.Node.Air.Retry.Delay!.Place, one.Node.Air.Retry.Limit!.Place)))
        {
            var members = same.ToList();
            var (first, target) = (members[0], members[0].Node);
            var list = InTurn(members.ConvertAll(one => (one.Turn, one.Delay)));
            var key = KeyOf(target);
            yield return new(target, $"{key}.delay", list.Count == 1 ? $"{list[0]}" : $"[{string.Join(", ", list)}]", WhyDelay(first.Repeater, members.Count, list));
            var limit = Limit(question, solution, members.ConvertAll(one => (one.Repeater, one.Delay)));
            if (limit is { } fewer)
                yield return new(target, $"{key}.limit", FormattableString.Invariant($"{fewer.Limit}"), fewer.Why);
            else if (target.Air.Retry.Limit is { IsDefault: false } written && !IsBeside(target, written.Place))
                yield return new(target, $"{key}.limit", FormattableString.Invariant($"{written.Value}"), "as written before: a node's own `retry` replaces the one that it had");
        }
    }

    /// <summary>Where in the dealing of lists each sender stands once every open delay is written.</summary>
    private static Dictionary<string, (Node Node, int Turn)> Turns(Question question)
    {
        var turns = new Dictionary<string, (Node, int)>(StringComparer.Ordinal);
        var open = new HashSet<string>(question.At(question.Rates[0]).Repeats.Senders.Where(sender => sender.IsOpen).Select(sender => sender.Sender.Name), StringComparer.Ordinal);
        foreach (var sender in RetryPlanner.InTurn(question.Network.Hops))
        {
            if (sender.Air.Retry.Delay is { } delay && (!delay.Value.IsOpen || open.Contains(sender.Name)))
                turns[sender.Name] = (sender, turns.Count);
        }
        return turns;
    }

    // The shortest list that gives each member its delay when it is dealt out in turn.
    private static List<Duration> InTurn(List<(int Turn, Duration Delay)> members)
    {
        for (var length = 1; length < Longest; length++)
        {
            var list = new Duration?[length];
            if (members.TrueForAll(member => (list[member.Turn % length] ??= member.Delay) == member.Delay))
                return [.. list.Select(delay => delay ?? members[0].Delay)];
        }
        return [.. members.Take(Longest).Select(member => member.Delay)];
    }

    private static bool IsBeside(Node node, Place place) => node.Place.Contains(place) && (node.Writes("retry") || node.Place.Contains(node.Air.Place));

    // `retry` of the node, or that in an `air` of its own.
    private static string KeyOf(Node node) => !node.Writes("retry") && node.Place.Contains(node.Air.Place)
        && (node.Air.Place.Contains(node.Air.Retry.Delay!.Place) || node.Air.Place.Contains(node.Air.Retry.Limit!.Place)) ? "air.retry" : "retry";

    private static string WhyDelay(Repeater repeater, int members, List<Duration> list)
    {
        var least = $"the acknowledgement needs {repeater.Least}";
        if (repeater.Delays.Length < 2)
            return $"{least}, and nobody else sends to the same receiver";
        var apart = repeater.Delays[1] - repeater.Delays[0];
        var classes = FormattableString.Invariant($"{repeater.Delays.Length} delays of {repeater.Delays[0]} to {repeater.Delays[repeater.Delays.Length - 1]}, {apart} apart, do not collide twice");
        return members == 1 ? $"{least}; {classes}" : FormattableString.Invariant($"{least}; {classes}, and the {members} nodes take {list.Distinct().Count()} of them");
    }

    // As many as fit, where nobody wrote how many.
    private static (int Limit, string Why)? Limit(Question question, Solution solution, List<(Repeater Repeater, Duration Delay)> members)
    {
        var at = question.At(solution.Answer.Rate);
        (int Limit, string Why)? least = null;
        foreach (var (repeater, delay) in members)
        {
            if (repeater.Sender.Air.Retry.Limit is not { IsDefault: true, Value: var usual })
                continue;
            foreach (var sending in Patience.Of(at.Air.Plan.Of(repeater.Sender), delay))
            {
                if (Patience.Bound(sending) is not var (time, what) || sending.GivingUp(usual) <= time)
                    continue;
                var most = Enumerable.Range(1, usual).Reverse().Where(retries => sending.GivingUp(retries) <= time).Cast<int?>().FirstOrDefault();
                if (most is { } fits && (least is null || fits < least.Value.Limit))
                    least = (fits, FormattableString.Invariant($"giving up then takes {sending.GivingUp(fits)}, within {what}, {time}"));
            }
        }
        return least;
    }
}
