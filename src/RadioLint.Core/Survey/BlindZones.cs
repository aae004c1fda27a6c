using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>What the detector of received power cannot hear, against what a link is planned to hear.</summary>
internal static class BlindZones
{
    private static readonly Setting[] Settings = [Setting.Open, Setting.House, Setting.Office, Setting.Hall];

    /// <summary>One for each link of a kind that carries packets of its own, in the order of the manifest.</summary>
    public static ImmutableArray<BlindZone> Of(Network network) => ImmutableArray.CreateRange(
        from hop in network.DistinctHops
        where !hop.Link.RidesInAcknowledgement && hop.Receiver.Part is not null
        let planned = Arriving(network, hop, hop.Sender, hop.Receiver)
        select new BlindZone(hop, ThresholdOf(hop.Receiver), planned, planned is { } level ? level - Needed(hop.Receiver) : null));

    /// <summary>From which level upward a node's detector hears, at its antenna socket: a preamplifier lifts what comes in.</summary>
    public static PowerLevel ThresholdOf(Node node) =>
        node.FrontEnd is { } front ? node.Part!.Detector.Level.Value - front.ReceiveGain.Value : node.Part!.Detector.Level.Value;

    /// <summary>The weakest of what is to arrive at a node, packets and acknowledgements; null when no link's budget is known.</summary>
    public static PowerLevel? WeakestAt(Network network, Node node)
    {
        PowerLevel? weakest = null;
        foreach (var hop in network.Hops)
        {
            if (hop.Link.RidesInAcknowledgement)
                continue;
            var from = hop.Receiver == node ? hop.Sender : hop.Sender == node && hop.IsAcknowledged && !hop.Link.IsBroadcast ? hop.Receiver : null;
            if (from is not null && Arriving(network, hop, from, node) is { } level && (weakest is not { } so || level < so))
                weakest = level;
        }
        return weakest;
    }

    // At the far end of the distance and, where nobody states a setting, in the worst.
    private static PowerLevel? Arriving(Network network, Hop hop, Node from, Node to)
    {
        if (hop.Link.Distance is not { } distance || from.Air.ChosenRate is not { } rate || to.Air.ChosenRate != rate)
            return null;
        PowerLevel? weakest = null;
        foreach (var setting in (hop.Link.Setting ?? network.Setting) is { } stated ? [stated.Value] : Settings)
        {
            var loss = PathEstimate.Most(setting, distance.Value.High, from.Height?.Value, to.Height?.Value, hop.Link.Through);
            if (LinkBudget.Of(from, to, rate, loss) is { } budget && (weakest is not { } so || budget.Received < so))
                weakest = budget.Received;
        }
        return weakest;
    }

    // The worse of the two tables for the same channel: who the interferer is, nobody knows beforehand.
    private static Gain Needed(Node receiver)
    {
        var (rate, table) = (receiver.Air.ChosenRate ?? default, receiver.Part!.Interference);
        var (foreign, own) = (table.NeededAgainstBlocker(rate, default) ?? new Gain(0), table.NeededAgainstOwnKind(rate, default) ?? new Gain(0));
        return foreign > own ? foreign : own;
    }
}
