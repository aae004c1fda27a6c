using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4106: a packet goes to a pipe that is closed, or an acknowledgement comes back to a pipe 0 that is.</summary>
public sealed class PipeNotEnabled() : Rule(new(
    "RL4106", Severity.Error, "Pipe that is not enabled",
    "a pipe receives while its bit of EN_RXADDR is 1; acknowledgements come to pipe 0 (nRF24L01+ Product Specification 1.0, Table 28)", "0.1")
{
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var hop in network.Hops)
        {
            if (hop.Link.RidesInAcknowledgement || hop.Receiver.OwnPipes is not { } own)
                continue;
            if (own.All(pipe => pipe.IsClosed))
                yield return NoneOpen(hop);
            else if (hop.Pipe is { } number && own.All(pipe => pipe.IsClosed || pipe.Number != number))
                yield return Closed(network, hop, own, number);
        }
        foreach (var plan in network.Plan.Nodes)
        {
            if (plan.Node.OwnPipes?.FirstOrDefault(pipe => pipe is { Number: 0, IsClosed: true }) is not { } closed
                || plan.Sends.FirstOrDefault(hop => hop.IsAcknowledged) is not { } sent)
            {
                continue;
            }
            yield return At(
                plan.Node, closed.Place,
                $"pipe 0 of `{plan.Node.Label}` is closed, so the acknowledgement of `{sent.Receiver.Label}` is never heard",
                $"leave pipe 0 out of `pipes`: a sender opens it with the address that it sends to") with
            { Related = See(sent.Link.FromPlace, $"it sends with acknowledgement here") };
        }
    }

    private Finding NoneOpen(Hop hop) => At(
        hop, hop.Link.ToPlace,
        $"`{hop.Receiver.Label}` has 0 open pipes, so nothing that `{hop.Sender.Label}` sends arrives",
        $"open a pipe of `{hop.Receiver.Label}`, or leave its `pipes` out to have them planned") with
    { Related = See(hop.Receiver.PipesPlace, $"its pipes are here") };

    private Finding Closed(Network network, Hop hop, ImmutableArray<OwnPipe> own, int number)
    {
        var entry = own.FirstOrDefault(pipe => pipe.Number == number);
        var address = AddressFor(network, hop, own, number);
        var pipe = address is null ? "" : WithAcknowledge(hop, address);
        return At(
            hop, hop.Link.Pipe!.Place,
            $"`{hop.Sender.Label}` sends to pipe {number} of `{hop.Receiver.Label}`, which {(entry is null ? "is not among its open pipes" : "is closed")}",
            $"open pipe {number} of `{hop.Receiver.Label}`, or send to one of {string.Join(", ", own.Where(pipe => !pipe.IsClosed).Select(pipe => pipe.Number))}",
            address is null ? [] :
            [
                Offer(
                    FormattableString.Invariant($"Open pipe {number} with {address}"),
                    [entry is null ? KeyEdit.Before(hop.Receiver.PipesPlace, own[0].Key.Place, FormattableString.Invariant($"{number}"), pipe) : pipe[0] == '{' ? new(entry.Place, pipe) : Edit.Value(entry.Place, pipe)]),
            ]) with
        { Related = See(entry?.Place ?? hop.Receiver.PipesPlace, $"{(entry is null ? "its pipes are" : "it is closed")} here") };
    }

    // The pipe answers as its sender expects (RL4202), where the receiver's own `acknowledge` says otherwise; a pipe of dynamic length answers in any case (RL5304).
    private static string WithAcknowledge(Hop hop, string address) =>
        (hop.Link.Acknowledge ?? hop.Sender.Air.Acknowledge)?.Value is { } expected && expected != (hop.Receiver.Air.Acknowledge?.Value ?? true)
            && (expected || hop.Receiver.Air.PayloadLength is { Value.Kind: not LengthKind.Dynamic })
            ? KeyEdit.Map(hop.Receiver.PipesPlace, ("address", address), ("acknowledge", expected ? "true" : "false"))
            : address;

    // What the link asks for; else the next last byte beside pipe 1. Null where pipe 1 could not give its bytes to it.
    private static string? AddressFor(Network network, Hop hop, ImmutableArray<OwnPipe> own, int number)
    {
        var lead = own.FirstOrDefault(pipe => pipe is { Number: 1, IsClosed: false, Address.Value.Address.Width: > 0 })?.Address?.Value.Address;
        var wanted = hop.Link.Address?.Value.Address is { Width: > 0 } written ? written : null;
        // Several receivers would all answer at it (RL4203).
        if (hop.Link.To.Length > 1)
            return null;
        // Pipes that end in the same byte are told apart by nothing (RL4102).
        if (wanted is not null && own.Any(pipe => !pipe.IsClosed && pipe.Number != number && pipe.Address?.Value.Address is { Width: > 0 } other && other.LowByte == wanted.LowByte))
            return null;
        if (number < 2)
            return (wanted ?? (hop.Receiver.Air.AddressWidth is { } width ? WrittenAddresses.Fresh(network, hop.Receiver, hop.Sender.Name, width.Value) : null))?.ToString();
        if (lead is null || (wanted is not null && !wanted.Equals(lead.WithLowByte(wanted.LowByte))))
            return null;
        return FormattableString.Invariant($"0x{wanted?.LowByte ?? WrittenAddresses.NextFree(network, hop.Receiver, lead.LowByte):X2}");
    }
}
