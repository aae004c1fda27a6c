using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;

namespace RadioLint.Rules.Links;

/// <summary>RL5106: a packet that nobody acknowledges keeps its sender longer than the period, the wanted delay or the watchdog allows.</summary>
public sealed class SendTakesTooLong() : Rule(new(
    "RL5106", Severity.Warning, "Giving up takes too long",
    "half of the period, the wanted delay or the watchdog; an error above the whole: upload + 130 us + (ARC + 1)(packet + ARD) + ARC x 130 us "
    + "(derived from nRF24L01+ Product Specification 1.0, Figures 10 and 17)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        var late = new List<(Hop Hop, Sending Sending, SendingBound Bound)>();
        foreach (var hop in network.DistinctHops)
        {
            if (hop.Link.RidesInAcknowledgement || !hop.IsAcknowledged || hop.Link.Payload is not { HasKnownSize: true })
                continue;
            if (hop.Sender.Service is { Watchdog: not null, ByInterrupt: null })
                yield return Waits(hop.Sender, "service.by");
            if (Sending.Of(network, hop) is { Bound: { } bound } sending && sending.GivingUp(sending.Retry.Limit) * 2 > bound.Time)
                late.Add((hop, sending, bound));
        }
        // Several may share the place that bounds them, and the first is told.
        foreach (var (hop, sending, bound) in late.OrderBy(one => one.Hop.Sender.Name, NaturalOrder.Instance))
            yield return Judge(hop, sending, bound);
    }

    private Finding Judge(Hop hop, Sending sending, SendingBound bound)
    {
        var (what, time, place) = bound;
        var longest = sending.GivingUp(sending.Retry.Limit);
        var retries = sending.MostRetries(below: sending.Retry.Limit);
        return At(
            hop, place,
            $"`{hop.Sender.Label}` gives a packet to `{hop.Receiver.Label}` up after {longest} ({sending.Retry.Limit + 1} x {sending.Packet} and {sending.Retry.Delay} of waiting): {(longest > time ? $"longer than {what}" : $"more than half of {what}")}, {time}",
            retries is { } fewer ? (FormattableString)$"let it repeat {fewer} times at most (`limit: {fewer}`), or allow at least {longest * 2}" : $"allow at least {longest * 2}",
            retries is { } fits && Limit(hop.Sender, fits) is { } edit ? [Offer(FormattableString.Invariant($"Repeat {fits} times at most"), [edit])] : []) with
        { Severity = longest > time ? Severity.Error : Severity.Warning };
    }

    private static Edit? Limit(Node sender, int limit)
    {
        var text = FormattableString.Invariant($"{limit}");
        return sender.Air.Retry switch
        {
            { Limit: { IsDefault: false } written } => Edit.Value(written.Place, text),
            // Its own `retry` would replace what the network states of it.
            { Delay: { IsDefault: true } } => FurtherKey.BehindBoard(sender, "retry", KeyEdit.Map(sender.Place, ("limit", text))),
            _ => null,
        };
    }
}
