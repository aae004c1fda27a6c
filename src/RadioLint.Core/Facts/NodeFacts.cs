using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Facts;

/// <summary>One payload between this node and a peer; a broadcast's peer is `broadcast`, whoever hears it.</summary>
public sealed record LinkFact(string Peer, Payload Payload, Hop Hop);

/// <summary>What of a network belongs into one node's header, in an order that comes from names alone.</summary>
public sealed class NodeFacts
{
    private NodeFacts(Network network, NodePlan plan, RegisterImage image)
    {
        Network = network;
        Plan = plan;
        Image = image;
        Outgoing = Links(plan.Sends, hop => hop.Link.IsBroadcast ? Broadcast : hop.Receiver.Name, hop => hop.Address?.ToString());
        Incoming = Links(plan.Receives, hop => hop.Sender.Name, hop => FormattableString.Invariant($"{hop.Pipe} {hop.Address}"));
        Returned = Links(plan.Returns, hop => hop.Receiver.Name, hop => FormattableString.Invariant($"{hop.Carrier?.Pipe}"));
        Answers = Links(plan.Sends.SelectMany(hop => hop.Riders), hop => hop.Sender.Name, _ => null);
        Payloads = ImmutableArray.CreateRange(Lengths().Distinct().OrderBy(one => one.Payload.Name, NaturalOrder.Instance).ThenBy(one => one.Length));
    }

    public const string Broadcast = "broadcast";

    public Network Network { get; }

    public NodePlan Plan { get; }

    public RegisterImage Image { get; }

    public Node Node => Plan.Node;

    /// <summary>Packets of its own.</summary>
    public ImmutableArray<LinkFact> Outgoing { get; }

    /// <summary>Packets that arrive.</summary>
    public ImmutableArray<LinkFact> Incoming { get; }

    /// <summary>Payloads that it returns in acknowledgements.</summary>
    public ImmutableArray<LinkFact> Returned { get; }

    /// <summary>Payloads that come back in acknowledgements of its own packets.</summary>
    public ImmutableArray<LinkFact> Answers { get; }

    /// <summary>Each payload with its bytes on air; twice when pipes of two fixed lengths carry it.</summary>
    public ImmutableArray<(Payload Payload, int Length)> Payloads { get; }

    /// <summary>
    /// Whether programs are told the node's number: a derived one may move when a node is added, so it stands only where a program needs it.
    /// </summary>
    public bool TellsNumber =>
        Node.Number is not null || Outgoing.Concat(Returned).Any(link => link.Payload.Fields.Any(one => one.Role == "sender"));

    /// <summary>Null while the node's register image is not complete.</summary>
    public static NodeFacts? Of(Network network, NodePlan plan) => plan.Image is { } image ? new(network, plan, image) : null;

    /// <summary>Bytes on air of a packet of this node: a fixed length pads with zeros. Never the receiver's, which RL4202 compares.</summary>
    public int SentLength(LinkFact link) => Node.Air.PayloadLength?.Value is { Kind: LengthKind.Fixed } mode ? mode.Bytes : link.Payload.Size;

    /// <summary>
    /// Microseconds from loading a payload to the last of its repetitions, rounded up; null while the SPI clock is not known.
    /// </summary>
    public long? LongestMicroseconds(LinkFact link)
    {
        var air = Node.Air;
        if (Node.Wiring.Clock is not { } clock)
            return null;
        var (delay, retries) = link.Hop.IsAcknowledged && Plan.Retry is { } retry ? (retry.Delay, retry.Limit) : (new(0), 0);
        var time = OnAir.GivingUp(
            air.ChosenRate!.Value, air.AddressWidth!.Value, SentLength(link), Math.Max(link.Hop.IsAcknowledged ? 1 : 0, air.Crc!.Value), delay, retries, clock);
        return (time.Nanoseconds + 999) / 1_000;
    }

    private IEnumerable<(Payload Payload, int Length)> Lengths()
    {
        foreach (var link in Outgoing)
            yield return (link.Payload, SentLength(link));
        foreach (var link in Incoming)
            yield return (link.Payload, PipeOf(link.Hop)?.FixedLength ?? link.Payload.Size);
        // A payload in an acknowledgement says its own length.
        foreach (var link in Returned.Concat(Answers))
            yield return (link.Payload, link.Payload.Size);
    }

    private OpenPipe? PipeOf(Hop hop) => Network.Plan.Of(hop.Receiver).Pipes.FirstOrDefault(pipe => pipe.Number == hop.Pipe);

    // Two links that differ only in when they send are one to the radio.
    private static ImmutableArray<LinkFact> Links(IEnumerable<Hop> hops, Func<Hop, string> peer, Func<Hop, string?> place) =>
        ImmutableArray.CreateRange(hops.Where(hop => hop.Link.Payload is not null)
            .Select(hop => new LinkFact(peer(hop), hop.Link.Payload!, hop))
            .DistinctBy(link => (link.Peer, link.Payload.Name, place(link.Hop)))
            .OrderBy(link => link.Peer, NaturalOrder.Instance).ThenBy(link => link.Payload.Name, NaturalOrder.Instance)
            .ThenBy(link => place(link.Hop), StringComparer.Ordinal));
}
