using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4201: a packet goes to an address at which its receiver has no pipe.</summary>
public sealed class NobodyListens() : Rule(new(
    "RL4201", Severity.Error, "Send address at which nobody listens",
    "a packet is taken only by an open pipe that holds its address (nRF24L01+ Product Specification 1.0, 7.6)", "0.1")
{
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var hop in network.Hops)
        {
            if (hop.Link.RidesInAcknowledgement || hop.Pipe is not null)
            {
                if (Unknown(network, hop) is { } unknown)
                    yield return unknown;
            }
            else if (hop.Address is { } address)
            {
                var pipes = network.Plan.Of(hop.Receiver).Pipes;
                if (hop.Receiver.OwnPipes is null && hop.Link.Pipe is { Value.Number: { } number })
                    yield return TwoOnOnePipe(hop, address, number, pipes);
                else if (hop.Receiver.OwnPipes is not null && pipes.Any(pipe => pipe.Address is not null))
                    yield return NotAmong(hop, address, pipes);
            }
        }
    }

    // A pipe whose address nobody states: the rule waits.
    private Finding? Unknown(Network network, Hop hop) =>
        hop.Pipe is { } number && hop.Receiver.OwnPipes is not null && hop.Address is null
        && network.Plan.Of(hop.Receiver).Pipes.Any(pipe => pipe.Number == number && pipe.Number < 2 && pipe.Address is null)
            ? Waits(hop.Receiver, FormattableString.Invariant($"pipes.{number}.address"))
            : null;

    private Finding NotAmong(Hop hop, Address address, ImmutableArray<OpenPipe> pipes)
    {
        var nearest = pipes.Where(pipe => pipe.Address is not null && pipe.Address.Width == address.Width)
            .OrderBy(pipe => IsMirrored(pipe.Address!, address) ? 0 : Distance(pipe.Address!, address)).ThenBy(pipe => pipe.Number).FirstOrDefault();
        var hint = nearest is null ? "" : IsMirrored(nearest.Address!, address)
            ? FormattableString.Invariant($"; pipe {nearest.Number} has the same bytes in the other order")
            : FormattableString.Invariant($"; the nearest is pipe {nearest.Number} with `{nearest.Address}`");
        var place = hop.Link.Address?.Place ?? hop.Link.ToPlace;
        return At(
            hop, place,
            $"`{hop.Receiver.Label}` does not listen at `{address}`{hint}",
            $"send to an address that one of its pipes holds: {string.Join(", ", pipes.Where(pipe => pipe.Address is not null).Select(pipe => $"`{pipe.Address}`"))}",
            nearest is null || hop.Link.Address is null || nearest.Acknowledges != hop.IsAcknowledged || !HoldsWhatIsWritten(hop.Receiver, nearest) ? [] : [Offer(FormattableString.Invariant($"Send to {nearest.Address} of pipe {nearest.Number}"), place, $"{nearest.Address}")]) with
        { Related = See(hop.Receiver.PipesPlace, $"the pipes of {hop.Receiver.Label} are here") };
    }

    private Finding TwoOnOnePipe(Hop hop, Address address, int number, ImmutableArray<OpenPipe> pipes)
    {
        var holder = pipes.First(pipe => pipe.Number == number);
        var free = Enumerable.Range(1, 5).Cast<int?>().FirstOrDefault(other => pipes.All(pipe => pipe.Number != other));
        return At(
            hop, hop.Link.Pipe!.Place,
            $"`{hop.Receiver.Label}` does not listen at `{address}`: its pipe {number} holds `{holder.Address}` for another link",
            $"send to another pipe{(free is { } next ? FormattableString.Invariant($", such as {next}") : "")}, or leave `pipe` out to have it planned",
            free is { } one ? [Offer(FormattableString.Invariant($"Use pipe {one}"), hop.Link.Pipe.Place, FormattableString.Invariant($"{one}"))] : []) with
        { Related = See(holder.Hops[0].Link.Pipe?.Place ?? holder.Hops[0].Link.ToPlace, $"the other link is here") };
    }

    // A pipe of 2 to 5 that is written with bytes that it cannot hold is RL4101's.
    private static bool HoldsWhatIsWritten(Node receiver, OpenPipe pipe) => receiver.OwnPipes!.Value.First(own => own.Number == pipe.Number).Address?.Value.Address is not { Width: > 1 } written || written.Equals(pipe.Address);

    private static bool IsMirrored(Address one, Address other) => one.RegisterBytes.AsSpan().SequenceEqual(other.AirBytes.AsSpan());

    private static int Distance(Address one, Address other) => one.AirBytes.Zip(other.AirBytes, (a, b) => Ones(a ^ b)).Sum();

    private static int Ones(int bits)
    {
        var count = 0;
        for (; bits != 0; bits &= bits - 1)
            count++;
        return count;
    }
}
