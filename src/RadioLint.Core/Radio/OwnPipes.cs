using System.Collections.Immutable;
using RadioLint.Model;

namespace RadioLint.Radio;

/// <summary>Hops to a node whose `pipes` are written: they go where the address fits, or to the next open pipe.</summary>
internal static class OwnPipes
{
    public static ImmutableArray<OpenPipe> Assign(
        Node receiver, ImmutableArray<OwnPipe> own, List<Hop> incoming, IReadOnlyDictionary<Link, Address?> broadcasts)
    {
        var open = own.Where(pipe => !pipe.IsClosed).ToList();
        var addresses = open.ToDictionary(pipe => pipe.Number, pipe => FullAddress(pipe, own));
        // Pipe 0 last: a node that sends needs it for its acknowledgements.
        var order = open.Select(pipe => pipe.Number).OrderBy(number => number == 0 ? 6 : number).ToList();
        var arriving = order.ToDictionary(number => number, _ => new List<Hop>());
        var next = 0;
        foreach (var claim in PipeClaim.Group(incoming, hop => hop.Sender.Name).SelectMany(claim => claim.Members.GroupBy(hop => hop.Sender.Name)))
        {
            var turn = order.Count == 0 ? (int?)null : order[Math.Min(next, order.Count - 1)];
            foreach (var hop in claim)
            {
                Settle(hop, open, addresses, turn, broadcasts);
                if (hop.Pipe is { } at && arriving.TryGetValue(at, out var list))
                    list.Add(hop);
            }
            if (claim.All(hop => hop.Link.Address is null && hop.Link.Pipe?.Value.Number is null && !hop.Link.IsBroadcast))
                next++;
        }
        return ImmutableArray.CreateRange(open.Select(pipe => new OpenPipe(pipe.Number, addresses[pipe.Number], pipe.Place)
        {
            Acknowledges = pipe.Acknowledge?.Value ?? receiver.Air.Acknowledge?.Value ?? true,
            FixedLength = PipeLength.Of(pipe.PayloadLength?.Value ?? receiver.Air.PayloadLength?.Value, arriving[pipe.Number]),
            Hops = ImmutableArray.CreateRange(arriving[pipe.Number]),
        }));
    }

    /// <summary>Pipes 2 to 5 take all but the last byte from pipe 1, whatever is written (7.6 p40).</summary>
    public static Address? FullAddress(OwnPipe pipe, ImmutableArray<OwnPipe> own)
    {
        if (pipe.Address?.Value.Address is not { Width: > 0 } written)
            return null;
        if (pipe.Number < 2)
            return written;
        var first = own.FirstOrDefault(other => other is { Number: 1, IsClosed: false, Address.Value.Address.Width: > 0 })?.Address?.Value.Address;
        return first is null ? written.Width > 1 ? written : null : first.WithLowByte(written.LowByte);
    }

    private static void Settle(
        Hop hop, List<OwnPipe> open, Dictionary<int, Address?> addresses, int? turn, IReadOnlyDictionary<Link, Address?> broadcasts)
    {
        var wanted = hop.Link.Address?.Value.Address ?? (hop.Link.IsBroadcast && broadcasts.TryGetValue(hop.Link, out var common) ? common : null);
        var stated = hop.Link.Pipe?.Value.Number;
        hop.IsAddressDerived = hop.Link.Address is null;
        hop.Pipe = wanted is null ? stated ?? turn
            : Find(addresses, wanted) ?? AsWritten(open, wanted)
            // A closed pipe is named as such; an open one with another address is nobody for this sender.
            ?? (stated is { } number && !addresses.ContainsKey(number) ? number : null);
        hop.Address = wanted ?? (hop.Pipe is { } pipe ? Meant(pipe, open, addresses) : null);
    }

    private static int? Find(Dictionary<int, Address?> addresses, Address wanted)
    {
        foreach (var pipe in addresses.Keys.OrderBy(number => number))
        {
            if (wanted.Equals(addresses[pipe]))
                return pipe;
        }
        return null;
    }

    // A pipe of 2 to 5 that is written in full with bytes that it cannot hold: RL4101 says so, and the sender means it all the same.
    private static int? AsWritten(List<OwnPipe> open, Address wanted) =>
        open.Find(pipe => wanted.Equals(pipe.Address?.Value.Address))?.Number;

    private static Address? Meant(int number, List<OwnPipe> open, Dictionary<int, Address?> addresses) =>
        !addresses.TryGetValue(number, out var held) ? null
            : open.Find(pipe => pipe.Number == number)?.Address?.Value.Address is { } written && written.Width == held?.Width ? written
            : held;
}
