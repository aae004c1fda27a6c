using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Rules.Addressing;

/// <summary>RL4101: one of pipes 2 to 5 is to have upper bytes of its own.</summary>
public sealed class PipePrefixDiffers() : Rule(new(
    "RL4101", Severity.Error, "Pipe 2 to 5 with upper bytes of its own",
    "pipes 2 to 5 hold the last byte alone, the others are those of pipe 1 (nRF24L01+ Product Specification 1.0, 7.6 and Table 28)", "0.1")
{
    Silences = ["RL4102"],
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var plan in network.Plan.Nodes)
        {
            var pipes = (plan.Node.OwnPipes is { } own ? Written(own) : Planned(plan)).ToList();
            if (pipes.Count == 0)
                continue;
            var lead = pipes[0];
            foreach (var pipe in pipes.Skip(1))
            {
                if (pipe.Address.Width == lead.Address.Width && !pipe.Address.Prefix.AsSpan().SequenceEqual(lead.Address.Prefix.AsSpan()))
                    yield return Judge(network, plan.Node, lead, pipe);
            }
        }
    }

    private Finding Judge(Network network, Node node, Held lead, Held pipe)
    {
        var isMirrored = lead.Address.AirBytes.AsSpan().Slice(1).SequenceEqual(pipe.Address.AirBytes.AsSpan().Slice(1));
        var right = isMirrored ? new(pipe.Address.RegisterBytes) : BesideLead(network, node, lead, pipe);
        var edits = Everywhere(network, pipe, right);
        return At(
            node, pipe.Place,
            $"pipe {pipe.Number} of `{node.Label}` cannot hold `{pipe.Address}`: all but the last byte come from pipe {lead.Number}, `{lead.Address}`{(isMirrored ? "; they differ in the first byte on air only, so the bytes are probably mirrored" : "")}",
            isMirrored
                ? (FormattableString)$"write both the other way round, first byte on air first: `{new Address(lead.Address.RegisterBytes)}` and `{right}`"
                : $"use the upper bytes of pipe {lead.Number} and another last byte, such as `{right}`",
            isMirrored
                ? Offer("Turn both round", edits.Concat(Everywhere(network, lead, new(lead.Address.RegisterBytes))))
                : Offer($"Use {right}", edits)) with
        {
            Subject = pipe.Place,
            // Where nobody sends to the pipe nothing is lost yet.
            Severity = network.Plan.Of(node).Receives.Any(hop => hop.Pipe == pipe.Number) ? Severity.Error : Severity.Warning,
            Related = See(lead.Place, $"pipe {lead.Number} is here"),
        };
    }

    private static Address BesideLead(Network network, Node node, Held lead, Held pipe)
    {
        var isTaken = network.Plan.Of(node).Pipes.Any(other => other.Number != pipe.Number && other.Address?.LowByte == pipe.Address.LowByte);
        return lead.Address.WithLowByte(isTaken ? WrittenAddresses.NextFree(network, node, pipe.Address.LowByte) : pipe.Address.LowByte);
    }

    // Who sends there must follow.
    private static IEnumerable<Edit> Everywhere(Network network, Held pipe, Address right) => WrittenAddresses.Of(network)
        .Where(places => places[0].Address.Equals(pipe.Address)).SelectMany(places => places).Where(written => written.Hop is not null)
        .Select(written => written.Place).Append(pipe.Place).Distinct().Select(place => Edit.Value(place, $"{right}"));

    private static IEnumerable<Held> Written(IEnumerable<OwnPipe> own) => own
        .Where(pipe => pipe is { Number: >= 1, IsClosed: false, Address.Value.Address.Width: > 1 })
        .Select(pipe => new Held(pipe.Number, pipe.Address!.Value.Address, pipe.Address.Place))
        .SkipWhile(pipe => pipe.Number != 1);

    private static IEnumerable<Held> Planned(NodePlan plan) => plan.Pipes
        .Where(pipe => pipe is { Number: >= 1, Address: not null })
        .Select(pipe => new Held(pipe.Number, pipe.Address!, PlaceOf(pipe)));

    private static Place PlaceOf(OpenPipe pipe) => pipe.Hops.Select(hop => hop.Link.Address?.Place).FirstOrDefault(place => place is not null) ?? pipe.Place;

    private sealed record Held(int Number, Address Address, Place Place);
}
