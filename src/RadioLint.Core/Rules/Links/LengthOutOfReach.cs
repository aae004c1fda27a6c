using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Manifest;
using RadioLint.Model;

namespace RadioLint.Rules.Links;

/// <summary>RL5302: a fixed length that no packet can have.</summary>
public sealed class LengthOutOfReach() : Rule(new(
    "RL5302", Severity.Error, "Length 0 or above 32",
    "1 to 32 bytes; RX_PW 0 switches the pipe off (nRF24L01+ Product Specification 1.0, Table 28)", "0.1")
{
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Part is not { } part)
                continue;
            if (Outside(node.Air.PayloadLength, part) is { } air)
                yield return Judge(network, node, air, part);
            foreach (var own in node.OwnPipes?.Where(pipe => !pipe.IsClosed) ?? [])
            {
                if (Outside(own.PayloadLength, part) is { } length)
                    yield return Judge(network, node, length, part);
            }
        }
        foreach (var payload in network.Payloads.Where(payload => payload is { HasKnownSize: true, Size: 0 }))
        {
            yield return At(
                payload.NamePlace, $"payload `{payload.Name}` has 0 bytes, and a packet carries at least 1", $"give it a field, such as `sequence: uint8`") with
            { Subject = payload };
        }
    }

    // Where the length is that of a payload which does not fit (RL6105), the payload is the subject.
    private Finding Judge(Network network, Node node, Stated<LengthMode> length, RadioPart part)
    {
        var range = part.PayloadRange.Value;
        var cause = length.Value.Bytes <= range.High ? null : network.DistinctHops
            .Where(hop => hop.Sender.Air.PayloadLength?.Place == length.Place || hop.Receiver.Air.PayloadLength?.Place == length.Place || hop.Receiver.Equals(node))
            .Select(hop => hop.Link.Payload).FirstOrDefault(payload => payload is not null && payload.Size > range.High);
        return At(
            node, length.Place,
            $"a length of {length.Value.Bytes} bytes is outside {range.Low} to {range.High}{(length.Value.Bytes == 0 ? ": 0 switches the pipe off" : "")}",
            $"use {range.Low} to {range.High} bytes, `exact` or `dynamic`; split what is longer") with
        { Subject = cause is null ? length.Place : cause };
    }

    private static Stated<LengthMode>? Outside(Stated<LengthMode>? length, RadioPart part) =>
        length is { Value: { Kind: LengthKind.Fixed, Bytes: var bytes } } && (bytes < part.PayloadRange.Value.Low || bytes > part.PayloadRange.Value.High) ? length : null;
}
