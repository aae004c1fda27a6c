using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4208: a packet is sent to a node that sleeps and never listens.</summary>
public sealed class SleeperIsDeaf() : Rule(new(
    "RL4208", Severity.Error, "Sending to a node that sleeps with its receiver off",
    "0 s of listening: a radio receives in RX mode alone (nRF24L01+ Product Specification 1.0, 6.1)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var hop in network.DistinctHops)
        {
            if (hop.Link.RidesInAcknowledgement || hop.Receiver.Sleep is not { Listens: { Value.Never: true } never } sleep || sleep.Radio is { Value: RadioRest.Receiving })
                continue;
            yield return At(
                hop, hop.Link.ToPlace,
                $"`{hop.Receiver.Label}` sleeps and listens for 0 s, so nothing that `{hop.Sender.Label}` sends is ever received",
                $"let it ride back with what `{hop.Receiver.Label}` sends (`with: acknowledgement`), or state how long it listens after waking (`listens: 20 ms`)",
                CanRideBack(network, hop) ? [Offer("Let it ride back in acknowledgements", [KeyEdit.After(hop.Link.Place, hop.Link.PayloadName!.Place, "with", "acknowledgement")])] : []) with
            {
                Related = never.IsDefault
                    ? See(hop.Receiver.NamePlace, $"`listens` is not stated under its `sleep`; the default is never")
                    : See(never.Place, $"it never listens"),
            };
        }
    }

    // Another link brings an acknowledgement that can carry it, and nothing is written that holds for packets of their own alone.
    private static bool CanRideBack(Network network, Hop hop)
    {
        var link = hop.Link;
        return link.RidesBack is { IsDefault: true } && link is { IsBroadcast: false, Address: null, Pipe: null, Acknowledge: null, PayloadName: not null }
            && KeyEdit.CanFollow(link.PayloadName.Place)
            && link.To.All(receiver => network.Plan.Of(receiver) is var plan && plan.Node.OwnPipes is null && plan.Retry is not { Written: not null }
                && plan.Node.Air.PayloadLength is { Value.Kind: LengthKind.Dynamic }
                && plan.Sends.Any(back => back.Receiver.Equals(hop.Sender) && back.IsAcknowledged && back.Receiver.OwnPipes is null
                    && network.Plan.Of(back.Receiver).Pipes.Any(pipe => pipe.Number == back.Pipe && pipe.Hops.Length == 1)));
    }
}
