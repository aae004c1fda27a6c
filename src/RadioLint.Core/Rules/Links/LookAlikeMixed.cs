using RadioLint.Findings;
using RadioLint.Hardware;
using RadioLint.Model;

namespace RadioLint.Rules.Links;

/// <summary>RL5004: a look-alike that may send the no-acknowledge bit inverted works with another part.</summary>
public sealed class LookAlikeMixed() : Rule(new(
    "RL5004", Severity.Warning, "Look-alike mixed with the original",
    "1 bit, NO_ACK of the control field (nRF24L01+ Product Specification 1.0, 7.3.3.3), which some parts sold as Si24R1 are said to send inverted: reports from benches, value from memory; its own data sheet says nothing of it", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var hop in network.DistinctHops)
        {
            if (hop.Link.RidesInAcknowledgement || hop is not { Sender.Part: { } sends, Receiver.Part: { } takes } || IsDoubtful(sends) == IsDoubtful(takes))
                continue;
            // Without any acknowledgement there is no control field to differ.
            if (!network.Plan.Of(hop.Sender).HasControlField)
                continue;
            var (node, other) = IsDoubtful(sends) ? (hop.Sender, hop.Receiver) : (hop.Receiver, hop.Sender);
            yield return At(
                node, node.Radio.Part!.Place,
                $"`{node.Label}` has {node.Part!.Name}, `{other.Label}` {other.Part!.Name}: some of the former send the bit that refuses acknowledgement inverted, and then 0 packets are acknowledged between the two",
                $"use the same part at both ends, or try one packet with acknowledgement each way before anything is built on it; leave packets without acknowledgement (NO_ACK) alone") with
            { LinkName = hop.Link.Name, Related = See(other.NamePlace, $"the other part is in {other.Label}") };
        }
    }

    private static bool IsDoubtful(RadioPart part) => part.NoAckDoubt?.Value ?? false;
}
