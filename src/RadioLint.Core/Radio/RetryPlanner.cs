using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Radio;

/// <summary>
/// Repetitions of every sender: as written, or the least legal delay, spread over collision-proof classes among the senders of one
/// receiver. A sender's class comes from its name, so a further sender rarely changes the others'.
/// </summary>
internal static class RetryPlanner
{
    public static Dictionary<Node, RetryPlan> Plan(ImmutableArray<Hop> hops)
    {
        var plans = new Dictionary<Node, RetryPlan>();
        var acknowledged = hops.Where(hop => hop.IsAcknowledged && !hop.Link.RidesInAcknowledgement).ToList();
        var bySender = acknowledged.GroupBy(hop => hop.Sender).ToDictionary(group => group.Key, group => group.ToList());
        var turn = 0;
        foreach (var group in acknowledged.GroupBy(hop => hop.Receiver).OrderBy(group => group.Key.Name, NaturalOrder.Instance))
        {
            var senders = group.Select(hop => hop.Sender).Distinct().OrderBy(node => node.Name, NaturalOrder.Instance).ToList();
            var open = new List<Node>();
            foreach (var sender in senders.Where(sender => !plans.ContainsKey(sender)))
            {
                if (sender.Air.Retry.Limit?.Value is not { } limit || sender.Air.Retry.Delay?.Value is not { } delay)
                    continue;
                if (delay.IsOpen)
                    open.Add(sender);
                else
                    plans[sender] = Written(delay.Delays[turn++ % delay.Delays.Length], limit);
            }
            var settled = senders.Where(plans.ContainsKey).Select(sender => plans[sender].Delay).ToList();
            foreach (var (sender, plan) in Spread(open, settled, senders.Count > 1, bySender))
                plans[sender] = plan;
        }
        return plans;
    }

    /// <summary>Senders in the order in which written lists are dealt out to them: by receivers, then by name, each once.</summary>
    public static IEnumerable<Node> InTurn(ImmutableArray<Hop> hops) => hops.Where(hop => hop.IsAcknowledged && !hop.Link.RidesInAcknowledgement)
        .GroupBy(hop => hop.Receiver).OrderBy(group => group.Key.Name, NaturalOrder.Instance)
        .SelectMany(group => group.Select(hop => hop.Sender).Distinct().OrderBy(node => node.Name, NaturalOrder.Instance)).Distinct()
        .Where(sender => sender.Air.Retry is { Limit: not null, Delay: not null });

    /// <summary>What the acknowledgements of all its hops need; null while rate, part or CRC are not known.</summary>
    public static Duration? LeastLegal(IEnumerable<Hop> sends)
    {
        Duration? least = null;
        foreach (var hop in sends)
        {
            if (hop.Sender.Part is not { } part || hop.Sender.Air.ChosenRate is not { } rate)
                return null;
            if (part.LeastRetryDelay(rate, ReturnedBytes(hop))?.Delay is not { } needed)
                return null;
            if (least is null || needed > least)
                least = needed;
        }
        return least;
    }

    /// <summary>Bytes that may ride back in a hop's acknowledgement.</summary>
    public static int ReturnedBytes(Hop hop) => Math.Min(32, hop.Riders.Select(rider => rider.Link.Payload?.Size ?? 0).DefaultIfEmpty().Max());

    /// <summary>Bytes on air of a hop's packet: the payload's, or the fixed length.</summary>
    public static int SentBytes(Hop hop) =>
        hop.Sender.Air.PayloadLength?.Value is { Kind: LengthKind.Fixed } mode ? mode.Bytes : hop.Link.Payload?.Size ?? 0;

    private static RetryPlan Written(Stated<Duration> delay, int limit) =>
        new(delay.Value, limit, false, ImmutableArray<Duration>.Empty) { Written = delay.Place };

    private static IEnumerable<(Node Sender, RetryPlan Plan)> Spread(
        List<Node> open, List<Duration> settled, bool hasCompany, Dictionary<Node, List<Hop>> bySender)
    {
        var ready = open.Where(sender => LeastLegal(bySender[sender]) is not null).ToList();
        if (ready.Count == 0)
            yield break;
        var least = ready.Max(sender => LeastLegal(bySender[sender])!.Value);
        var longest = ready.SelectMany(sender => bySender[sender]).Max(Airtime);
        var classes = hasCompany ? RetryClasses.For(least, longest) : ImmutableArray<Duration>.Empty;
        // Delays that are settled already, written or planned for another receiver, keep their distance too.
        var taken = new HashSet<int>(Enumerable.Range(0, classes.Length).Where(index => settled.Exists(delay => !RetryClasses.AreApart(delay, classes[index], longest))));
        if (taken.Count == classes.Length)
            taken.Clear();
        foreach (var sender in ready)
        {
            var limit = sender.Air.Retry.Limit!.Value;
            if (classes.Length < 2)
            {
                yield return (sender, new(classes.IsEmpty ? LeastLegal(bySender[sender])!.Value : classes[0], limit, true, classes));
                continue;
            }
            var wanted = Preference(sender) % classes.Length;
            for (var i = 0; i < classes.Length && taken.Contains(wanted); i++)
                wanted = (wanted + 1) % classes.Length;
            taken.Add(wanted);
            if (taken.Count == classes.Length)
                taken.Clear();
            yield return (sender, new(classes[wanted], limit, true, classes));
        }
    }

    // An acknowledged packet has a CRC even where none is asked for: EN_AA forces one byte (Table 28 p57).
    public static Duration Airtime(Hop hop) => OnAir.Packet(
        hop.Sender.Air.ChosenRate!.Value, hop.Sender.Air.AddressWidth?.Value ?? 5, Math.Min(32, SentBytes(hop)), Math.Max(1, hop.Sender.Air.Crc?.Value ?? 2));

    // Members of a numbered group take turns; others start where their name says.
    private static int Preference(Node sender)
    {
        var suffix = sender.Name.Length > sender.Entry.Length ? sender.Name.Substring(sender.Entry.Length + 1) : "";
        if (suffix.Length is > 0 and <= 6 && suffix.All(c => c is >= '0' and <= '9'))
            return int.Parse(suffix, System.Globalization.CultureInfo.InvariantCulture) - 1 + (suffix == "0" ? 1 : 0);
        var sum = 0;
        foreach (var c in sender.Name)
            sum = unchecked((sum * 31) + c) & 0xFFFF;
        return sum;
    }
}
