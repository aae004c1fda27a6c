using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Links;

/// <summary>RL5305: a fixed length of which the longest payload fills less than half.</summary>
public sealed class LengthMostlyPadding() : Rule(new(
    "RL5305", Severity.Info, "Fixed length that is mostly padding",
    "50 % of the fixed length (own threshold)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        // One line may state the length of many nodes: their longest payload decides.
        var longest = new Dictionary<Place, Hop>();
        foreach (var hop in network.DistinctHops)
        {
            if (hop is not { Link: { RidesInAcknowledgement: false, Payload.HasKnownSize: true }, Sender.Air.PayloadLength: { Value.Kind: LengthKind.Fixed } length })
                continue;
            if (!longest.TryGetValue(length.Place, out var known) || hop.Link.Payload!.Size > known.Link.Payload!.Size)
                longest[length.Place] = hop;
        }
        return longest.Values.Where(IsMostlyPadding).Select(hop => Judge(network, hop));
    }

    private static bool IsMostlyPadding(Hop hop) => hop.Sender.Air.PayloadLength!.Value.Bytes is <= 32 and var bytes && bytes > 2 * hop.Link.Payload!.Size && hop.Link.Payload.Size > 0;

    private Finding Judge(Network network, Hop hop)
    {
        var (length, size) = (hop.Sender.Air.PayloadLength!, hop.Link.Payload!.Size);
        var padding = length.Value.Bytes - size;
        var time = hop.Sender.Air.ChosenRate is { } rate ? FormattableString.Invariant($", {new Duration(rate.BitTime().Nanoseconds * 8 * padding)} of each packet's time on air") : "";
        return At(
            hop, length.Place,
            $"{padding} of {length.Value.Bytes} bytes are padding even with the longest payload, `{hop.Link.Payload.Name}`{time}",
            $"use `payload-length: exact` or `dynamic`, or {size} bytes, at both ends",
            IsShared(network, length) ? [Offer($"Use {size} byte{(size == 1 ? "" : "s")}", length.Place, FormattableString.Invariant($"{size} byte{(size == 1 ? "" : "s")}"))] : []) with
        { Related = See(hop.Link.Payload.NamePlace, $"the payload is here") };
    }

    // Both ends of every link change together, and all of them are ours to change.
    private static bool IsShared(Network network, Stated<LengthMode> length) => network.DistinctNodes.All(
        node => !node.IsExternal && node.Air.PayloadLength?.Place == length.Place && (node.OwnPipes?.All(pipe => pipe.PayloadLength is null) ?? true));
}
