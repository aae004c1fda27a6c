using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Rules.Range;

/// <summary>A hop that can be judged by distance: its ends agree on the air, and all but the path is known.</summary>
/// <param name="Returns">True when something comes back: an acknowledgement, with or without a payload.</param>
internal sealed record JudgedHop(Hop Hop, DataRate Rate, bool Returns)
{
    private static readonly Length Low = new(300);

    /// <summary>Hops that pass a packet of their own and whose ends hear each other; the others are told of elsewhere.</summary>
    public static IEnumerable<JudgedHop> Of(Network network)
    {
        foreach (var hop in network.DistinctHops)
        {
            if (hop.Link.RidesInAcknowledgement || hop.Sender.Air.ChosenRate is not { } rate || hop.Receiver.Air.ChosenRate != rate)
                continue;
            yield return new(hop, rate, hop.IsAcknowledged && !hop.Link.IsBroadcast);
        }
    }

    /// <summary>The keys that are missing for a budget, each with the node that would state it: the sender for what the link states.</summary>
    public IEnumerable<(Node Node, string Key)> Missing()
    {
        if (Hop.Link.Distance is null)
            yield return (Hop.Sender, "links.distance");
        foreach (var node in new[] { Hop.Sender, Hop.Receiver })
        {
            if (node.Radio.Antenna is null)
                yield return (node, "radio.antenna");
            else if (LinkBudget.Antenna(node) is null && HasAntenna(node))
                yield return (node, "radio.antenna.gain");
        }
    }

    /// <summary>
    /// Heights that matter: up to the distance from which the ground takes away between two antennas as low as 0.3 m, or between one so low and
    /// the other as high as it is stated, they do not.
    /// </summary>
    public IEnumerable<(Node Node, string Key)> MissingHeights()
    {
        var (one, other) = (Hop.Sender.Height?.Value ?? Low, Hop.Receiver.Height?.Value ?? Low);
        if (Hop.Link.Distance!.Value.High <= PathLoss.CrossOver(PathLoss.MidBand, one, other))
            yield break;
        foreach (var node in new[] { Hop.Sender, Hop.Receiver })
        {
            if (node.Height is null)
                yield return (node, "height");
        }
    }

    /// <summary>True where both ends have something to radiate with. Of others RL7203 speaks, or they are on a bench.</summary>
    public bool HasPath => HasAntenna(Hop.Sender) && HasAntenna(Hop.Receiver);

    /// <summary>Both directions over a path, the way out first; the way back only where something returns.</summary>
    public IEnumerable<(Node From, Node To, LinkBudget Budget)> Directions(Gain loss)
    {
        if (LinkBudget.Of(Hop.Sender, Hop.Receiver, Rate, loss) is { } forth)
            yield return (Hop.Sender, Hop.Receiver, forth);
        if (Returns && LinkBudget.Of(Hop.Receiver, Hop.Sender, Rate, loss) is { } back)
            yield return (Hop.Receiver, Hop.Sender, back);
    }

    /// <summary>
    /// What a link should have to spare: 10 dB in sight of each other where somebody is about, 20 dB indoors, behind something, or without a visit
    /// (common practice; value from memory). Fading without line of sight breaks 10 dB in a tenth of all places, 20 dB in a hundredth.
    /// </summary>
    public Gain Wanted(Setting setting) =>
        setting is Setting.Open && Hop.Link.Through.IsEmpty && Hop.Sender.RunsFor is null && Hop.Receiver.RunsFor is null ? new(1_000) : new(2_000);

    private static bool HasAntenna(Node node) => node.Radio.Antenna?.Value.Kind?.Value is not (AntennaKind.None or AntennaKind.DummyLoad);
}
