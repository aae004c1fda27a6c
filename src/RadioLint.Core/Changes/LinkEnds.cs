using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Changes;

/// <summary>One end of a link in one of two plans: a node with what its radio holds, and the link as that plan has it.</summary>
public readonly record struct LinkEnd(NodePlan Node, Hop Hop);

/// <summary>Whether a sender with one plan and a receiver with another still hear each other.</summary>
public static class LinkEnds
{
    /// <summary>
    /// What keeps packets from being delivered, in words with both values; empty when they hear each other. The settings are those that both ends must share
    /// (nRF24L01+ Product Specification 1.0, 6.2, 6.3, 7.3, 7.9), and the address. What is open or unknown on one side is no difference.
    /// </summary>
    public static IEnumerable<string> Differences(LinkEnd sender, LinkEnd receiver)
    {
        var (from, to) = (sender.Node.Node.Air, receiver.Node.Node.Air);
        if (from.ChosenChannel is { } channel && to.ChosenChannel is { } other && channel != other)
            yield return Said("channel", channel, other);
        if (from.ChosenRate is { } rate && to.ChosenRate is { } otherRate && rate != otherRate)
            yield return Said("rate", rate.InManifest(), otherRate.InManifest());
        if (from.AddressWidth is { } width && to.AddressWidth is { } otherWidth && width.Value != otherWidth.Value)
            yield return Said("address width", width.Value, otherWidth.Value);
        // A receiver that looks at no CRC takes a packet with one.
        if (sender.Node.CheckBytes is { } crc && receiver.Node.CheckBytes is { } otherCrc && crc != otherCrc && otherCrc != 0)
            yield return Said("CRC bytes", crc, otherCrc);
        if (receiver.Node.Pipes.FirstOrDefault(pipe => pipe.Number == receiver.Hop.Pipe) is not { } open)
            yield break;
        if (sender.Hop.Address is { } address && open.Address is { } listened && !address.Equals(listened))
            yield return Said("address", address, listened);
        if (sender.Node.HasControlField != receiver.Node.HasControlField || (sender.Hop.IsAcknowledged && !open.Acknowledges))
            yield return "acknowledgement of one plan only";
        else if (sender.Node.Node.Air.PayloadLength is { } length && Sent(sender.Hop, length.Value) is var sent && sent != open.FixedLength)
            yield return Said("payload length", Bytes(sent), Bytes(open.FixedLength));
    }

    private static int? Sent(Hop hop, LengthMode mode) => mode.Kind is LengthKind.Dynamic || hop.Link.Payload is not { HasKnownSize: true } ? null : RetryPlanner.SentBytes(hop);

    private static string Bytes(int? length) => length is { } bytes ? FormattableString.Invariant($"{bytes}") : "dynamic";

    private static string Said(string setting, object sender, object receiver) => FormattableString.Invariant($"{setting} {sender} against {receiver}");
}
