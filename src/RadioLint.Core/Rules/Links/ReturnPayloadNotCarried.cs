using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Rules.Links;

/// <summary>RL5107: a payload is to ride back in acknowledgements that cannot carry it.</summary>
public sealed class ReturnPayloadNotCarried() : Rule(new(
    "RL5107", Severity.Error, "Payload in an acknowledgement that cannot carry it",
    "an acknowledgement with payload needs dynamic length on pipe 0 of the sender and on the receiving pipe, both with acknowledgement (nRF24L01+ Product Specification 1.0, 7.4.1, Table 28 note d)", "0.1")
{
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var rider in network.Hops)
        {
            if (!rider.Link.RidesInAcknowledgement)
                continue;
            if (rider.Carrier is not { } carrier)
                yield return Lacks(rider, $"`{rider.Receiver.Label}` sends nothing to `{rider.Sender.Label}` that could be acknowledged", $"add a link from `{rider.Receiver.Label}` to `{rider.Sender.Label}`, or send it as a packet of its own");
            else if (carrier.IsSentWithoutAcknowledge)
                yield return Lacks(rider, $"the link from `{carrier.Sender.Label}` asks for no acknowledgement", $"let that link be acknowledged", carrier.Link.Acknowledge, "true");
            else if (Fixed(network, carrier) is { } length)
                yield return OfFixedLength(rider, carrier, length);
        }
    }

    // Where only one end has fixed lengths RL4202 speaks; dynamic ones without acknowledgement are RL5304.
    private static (Stated<LengthMode> AtSender, Stated<LengthMode> AtReceiver)? Fixed(Network network, Hop carrier)
    {
        var own = carrier.Receiver.OwnPipes?.FirstOrDefault(pipe => pipe.Number == carrier.Pipe);
        return carrier.Sender.Air.PayloadLength is { Value.Kind: not LengthKind.Dynamic } sends
            && (own?.PayloadLength ?? carrier.Receiver.Air.PayloadLength) is { } takes
            && network.Plan.Of(carrier.Receiver).Pipes.Any(pipe => pipe.Number == carrier.Pipe && pipe.FixedLength is not null)
                ? (sends, takes)
                : null;
    }

    private Finding OfFixedLength(Hop rider, Hop carrier, (Stated<LengthMode> AtSender, Stated<LengthMode> AtReceiver) length)
    {
        var places = new[] { length.AtSender.Place, length.AtReceiver.Place }.Distinct().ToList();
        return At(
            rider, length.AtReceiver.Place,
            $"`{rider.Link.PayloadName?.Value}` is to ride back to `{carrier.Sender.Label}` in acknowledgements, but lengths are fixed ({length.AtReceiver.Value.InManifest()}) on pipe {carrier.Pipe} of `{carrier.Receiver.Label}`",
            $"use `payload-length: dynamic` at both ends",
            Offer("Use dynamic lengths", places.Select(place => Edit.Value(place, "dynamic")))) with
        { Related = See(rider.Link.RidesBack!.Place, $"the payload that rides back is here") };
    }

    private Finding Lacks(Hop rider, string what, FormattableString help, Stated<bool>? stated = null, string? right = null) => At(
        rider, rider.Link.RidesBack!.Place,
        $"`{rider.Link.PayloadName?.Value}` cannot ride back to `{rider.Receiver.Label}`: {what}",
        help,
        stated is null ? [] : [Offer(right == "true" ? "Write `true`; a lost packet is repeated" : $"Write `{right}`", stated.Place, right!)]) with
    { Related = stated is null ? ImmutableArray<RelatedPlace>.Empty : See(stated.Place, $"it is turned off here") };
}
