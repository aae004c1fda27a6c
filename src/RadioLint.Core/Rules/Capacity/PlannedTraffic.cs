using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Rules.Capacity;

/// <summary>A hop whose packets are counted.</summary>
/// <param name="Load">The share of time that its first tries keep the channel busy.</param>
internal sealed record CountedHop(Hop Hop, NodePlan Sender, double PacketsPerSecond, double Load);

/// <summary>The traffic that links state.</summary>
internal static class PlannedTraffic
{
    /// <summary>
    /// Hops with a packet of their own whose rate, times and channel are known; a broadcast counts once, a path through relays once for each of them
    /// besides. What rides back has no packet.
    /// </summary>
    public static IEnumerable<CountedHop> Counted(Network network)
    {
        var broadcasts = new HashSet<(Link, Node)>();
        foreach (var hop in network.Hops)
        {
            if (hop.Link.RidesInAcknowledgement || (hop.Link.IsBroadcast && !broadcasts.Add((hop.Link, hop.Sender))))
                continue;
            var sender = network.Plan.Of(hop.Sender);
            if (hop.Sender.Air.ChosenChannel is null || Traffic.Rate(hop) is not { } rate || Traffic.Busy(sender, hop) is not { } busy)
                continue;
            var perSecond = rate.Packets * (1.0 + hop.Link.Via.Length) * 1e9 / rate.Per.Nanoseconds;
            yield return new(hop, sender, perSecond, perSecond * busy.Nanoseconds / 1e9);
        }
    }

    /// <summary>Senders whose links do not say how often they send; one for each kind.</summary>
    public static IEnumerable<Node> Unstated(Network network) => network.DistinctHops
        .Where(hop => !hop.Link.RidesInAcknowledgement && Traffic.Rate(hop) is null).Select(hop => hop.Sender).Distinct();
}
