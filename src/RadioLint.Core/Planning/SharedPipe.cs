using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Planning;

/// <summary>
/// A receiver with more senders than pipes: links of one payload that says who sent it, and counts, share pipes; all others keep one of their own.
/// </summary>
internal static class SharedPipe
{
    private const int All = 6;

    /// <summary>What arrives, dealt to pipes; or what cannot be had together.</summary>
    public static (ImmutableArray<PipeUse> Uses, ImmutableArray<Demand> Conflict) Deal(NodePlan plan, bool sends)
    {
        var receiver = plan.Node;
        var mayShare = plan.Receives.GroupBy(hop => hop.Link).Where(link => MayShare(link.Key)).ToList();
        var alone = plan.Receives.Where(hop => !MayShare(hop.Link)).GroupBy(Key).OrderBy(claim => claim.Key, NaturalOrder.Instance).ToList();
        var kinds = mayShare.GroupBy(link => link.Key.PayloadName!.Value, StringComparer.Ordinal).OrderBy(kind => kind.Key, StringComparer.Ordinal).ToList();
        var available = sends ? All - 1 : All;
        if (alone.Count + kinds.Count > available)
            return (ImmutableArray<PipeUse>.Empty, Conflict(receiver, sends, [.. alone.Select(claim => claim.First()), .. kinds.Select(kind => kind.First().First())], available));
        var taken = new HashSet<int>(alone.SelectMany(claim => claim).Select(hop => hop.Link.Pipe?.Value.Number).OfType<int>());
        var free = new Queue<int>(Enumerable.Range(sends ? 1 : 0, available).OrderBy(pipe => pipe == 0 ? All : pipe).Where(pipe => !taken.Contains(pipe)));
        var pipesOf = Share(kinds.ConvertAll(kind => kind.Sum(link => link.Count())), kinds.ConvertAll(kind => kind.Count()), free.Count - (alone.Count - taken.Count));
        var uses = new List<PipeUse>();
        for (var k = 0; k < kinds.Count; k++)
        {
            var pipes = Enumerable.Range(0, pipesOf[k]).Select(_ => (Number: free.Dequeue(), Hops: new List<Hop>(), Links: new List<Link>())).ToList();
            // The largest first, each to where fewest are.
            foreach (var link in kinds[k].OrderByDescending(link => link.Count()).ThenBy(link => link.Key.Name, NaturalOrder.Instance))
            {
                var to = pipes.OrderBy(pipe => pipe.Hops.Count).ThenBy(pipe => pipe.Number).First();
                to.Hops.AddRange(link);
                to.Links.Add(link.Key);
            }
            uses.AddRange(pipes.Select(pipe => new PipeUse(receiver, pipe.Number, sends, ImmutableArray.CreateRange(pipe.Hops), ImmutableArray.CreateRange(pipe.Links))));
        }
        foreach (var claim in alone)
        {
            var written = claim.Select(hop => hop.Link.Pipe?.Value.Number).FirstOrDefault(number => number is not null);
            uses.Add(new(receiver, written ?? free.Dequeue(), sends, ImmutableArray.CreateRange(claim), ImmutableArray<Link>.Empty));
        }
        return (ImmutableArray.CreateRange(uses.OrderBy(use => use.Pipe)), ImmutableArray<Demand>.Empty);
    }

    private static bool MayShare(Link link) => link is { Address: null, Pipe: null, IsBroadcast: false, To.Length: 1, PayloadName: not null, Payload: { } payload }
        && payload.Fields.Any(field => field.Role == "sender") && payload.Fields.Any(field => field.Role == "sequence");

    // As the planner groups what must share.
    private static string Key(Hop hop) => hop.Link switch
    {
        { IsBroadcast: true } link => $"broadcast {link.FromText} {link.PayloadName?.Value}",
        { Address.Value.Address: { } written } => $"address {written}",
        { Pipe.Value.Number: { } number } => FormattableString.Invariant($"pipe {number}"),
        { Pipe.Value.Own: true } => hop.Sender.Name,
        _ => hop.Sender.Entry,
    };

    // One for each kind; each further one to the kind whose pipes are fullest.
    private static int[] Share(List<int> senders, List<int> links, int pipes)
    {
        var shares = senders.Select(_ => 1).ToArray();
        for (var left = pipes - shares.Length; left > 0; left--)
        {
            var to = Enumerable.Range(0, shares.Length).Where(k => shares[k] < links[k]).OrderByDescending(k => senders[k] / (double)shares[k]).ThenBy(k => k).Cast<int?>().FirstOrDefault();
            if (to is not { } kind)
                break;
            shares[kind]++;
        }
        return shares;
    }

    private static ImmutableArray<Demand> Conflict(Node receiver, bool sends, List<Hop> each, int available)
    {
        var demands = each.OrderBy(hop => hop.Sender.Name, NaturalOrder.Instance).Take(available + 1).Select(hop => new Demand(
            hop.Link.Pipe?.Place ?? hop.Link.Place.FirstLine,
            $"packets from {hop.Link.FromText} need a pipe of their own at `{receiver.Label}`{(hop.Link.Pipe?.Value.Own is true || hop.Link.Address is not null || hop.Link.Pipe is not null ? "" : ": nothing in them says who sent them and which comes next")}"));
        return ImmutableArray.CreateRange(sends
            ? demands.Append(new(receiver.NamePlace, $"`{receiver.Label}` sends packets itself and needs pipe 0 for their acknowledgements"))
            : demands);
    }
}
