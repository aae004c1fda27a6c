using System.Collections.Immutable;
using RadioLint.Model;

namespace RadioLint.Radio;

/// <summary>Hops to a node whose `pipes` are written: they go where the address fits, or to the next open pipe.</summary>
internal static class OwnPipes
{
    public static ImmutableArray<OpenPipe> Assign(Node receiver, ImmutableArray<OwnPipe> own, List<Hop> incoming)
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
                hop.Address = hop.Link.Address?.Value.Address;
                hop.IsAddressDerived = hop.Address is null;
                hop.Pipe = hop.Address is { } written
                    ? Find(addresses, written)
                    : hop.Link.Pipe?.Value.Number ?? turn;
                hop.Address ??= hop.Pipe is { } pipe && addresses.TryGetValue(pipe, out var known) ? known : null;
                if (hop.Pipe is { } at && arriving.TryGetValue(at, out var list))
                    list.Add(hop);
            }
            if (claim.All(hop => hop.Link.Address is null && hop.Link.Pipe?.Value.Number is null))
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
        var first = own.FirstOrDefault(other => other is { Number: 1, IsClosed: false })?.Address?.Value.Address;
        return first is null ? written.Width > 1 ? written : null : first.WithLowByte(written.LowByte);
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
}
