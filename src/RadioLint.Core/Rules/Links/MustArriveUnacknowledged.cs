using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Links;

/// <summary>RL5109: a link whose packets must arrive is sent without acknowledgement.</summary>
public sealed class MustArriveUnacknowledged() : Rule(new(
    "RL5109", Severity.Warning, "Acknowledgement off where nothing may be lost",
    "0 repetitions: without acknowledgement a packet is sent once, whatever becomes of it (nRF24L01+ Product Specification 1.0, 7.4.2)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var hop in network.DistinctHops)
        {
            if (hop.Link is not { RidesInAcknowledgement: false, MustArrive: { Value: true } must } link || hop.IsAcknowledged || (link.Acknowledge ?? hop.Sender.Air.Acknowledge) is not { } off)
                continue;
            yield return At(
                hop, off.Place,
                $"`{hop.Sender.Label}` sends to `{hop.Receiver.Label}` without acknowledgement what must arrive: a lost packet is repeated 0 times and nobody knows",
                link.IsBroadcast
                    ? (FormattableString)$"send it to each receiver by itself, with acknowledgement; or repeat the broadcast in the program"
                    : $"turn acknowledgement on; if sending then fails, find out why: the failures were there before",
                link is { IsBroadcast: false, Acknowledge: not null } ? [Offer("Write `true`; a lost packet is repeated", off.Place, "true")] : []) with
            { Related = See(must.Place, $"it must arrive") };
        }
    }
}
