using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>What a hop puts on the air.</summary>
public static class Traffic
{
    /// <summary>The turn from sending to listening (nRF24L01+ Product Specification 1.0, Table 16).</summary>
    private static readonly Duration Turn = OnAir.Settling;

    /// <summary>Packets of one hop, so many in so much time; a message that needs several packets counts as so many. Null where the link does not say.</summary>
    public static (long Packets, Duration Per)? Rate(Hop hop)
    {
        var link = hop.Link;
        var pieces = link is { Message.Value: var bytes, Payload.Size: > 0 and var size } ? (bytes + size - 1) / size : 1;
        if (link.Every is { Value.Nanoseconds: > 0 } every)
            return (pieces, every.Value);
        return link.Events is { Value: { Per.Nanoseconds: > 0 } events } ? ((long)pieces * events.Count, events.Per) : null;
    }

    /// <summary>A packet on the air, once; null while rate, width or CRC is not known.</summary>
    public static Duration? Packet(NodePlan sender, Hop hop) => sender is { Node.Air: { ChosenRate: { } rate, AddressWidth.Value: var width }, CheckBytes: { } crc }
        ? OnAir.Packet(rate, width, Math.Min(32, RetryPlanner.SentBytes(hop)), crc, sender.HasControlField)
        : null;

    /// <summary>Its acknowledgement, with the payload that may ride in it; nothing where none is asked for.</summary>
    public static Duration? Acknowledgement(NodePlan sender, Hop hop) => !IsAnswered(hop) ? new Duration(0)
        : sender is { Node.Air: { ChosenRate: { } rate, AddressWidth.Value: var width }, CheckBytes: { } crc }
            ? OnAir.Packet(rate, width, RetryPlanner.ReturnedBytes(hop), crc) : null;

    /// <summary>How long one try keeps the channel: packet, turn, acknowledgement (facts MAC-02: 532 us of a full packet at 1 Mbps).</summary>
    public static Duration? Busy(NodePlan sender, Hop hop) => Packet(sender, hop) is { } packet && Acknowledgement(sender, hop) is { } answer
        ? IsAnswered(hop) ? packet + Turn + answer : packet
        : null;

    /// <summary>How often it may be repeated.</summary>
    public static int Repetitions(NodePlan sender, Hop hop) => IsAnswered(hop) ? sender.Retry?.Limit ?? sender.Node.Air.Retry.Limit?.Value ?? 0 : 0;

    private static bool IsAnswered(Hop hop) => hop.IsAcknowledged && !hop.Link.IsBroadcast;
}
