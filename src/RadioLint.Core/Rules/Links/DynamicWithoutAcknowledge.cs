using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;

namespace RadioLint.Rules.Links;

/// <summary>RL5304: packets of dynamic length on a pipe that does not acknowledge.</summary>
public sealed class DynamicWithoutAcknowledge() : Rule(new(
    "RL5304", Severity.Error, "Dynamic length without acknowledgement",
    "DYNPD of a pipe requires its EN_AA (nRF24L01+ Product Specification 1.0, Table 28)", "0.1")
{
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        // Where one line is the cause of all, a receiver is told of first, whatever the order of the file.
        var plans = network.Plan.Nodes.OrderBy(plan => plan.Node.Name, NaturalOrder.Instance).ToList();
        return plans.SelectMany(plan => AtPipes(network, plan)).Concat(plans.SelectMany(plan => AtSender(network, plan)));
    }

    private IEnumerable<Finding> AtPipes(Network network, NodePlan plan)
    {
        var node = plan.Node;
        foreach (var pipe in plan.Pipes.Where(pipe => !pipe.Acknowledges))
        {
            // Pipe 0 of a sender, which acknowledgements come to, is RL5101.
            if (pipe is { Number: 0, Hops.IsEmpty: true } && plan.SendsAcknowledged)
                continue;
            var own = node.OwnPipes?.FirstOrDefault(one => one.Number == pipe.Number);
            if ((own?.PayloadLength ?? node.Air.PayloadLength) is { Value.Kind: LengthKind.Dynamic } length && (own?.Acknowledge ?? node.Air.Acknowledge) is { } off)
            {
                var finding = Judge(network, node, length, off, $"pipe {pipe.Number} of `{node.Label}` takes packets of dynamic length, which only a pipe that acknowledges can");
                // A pipe 0 that acknowledgements come to as well keeps its dynamic length (RL5303).
                if (pipe.Number == 0 && plan.AsksForAcknowledge)
                    finding = finding with { Fixes = ImmutableArray<Fix>.Empty };
                // Where nobody sends to the pipe nothing is lost yet.
                yield return pipe.Hops.IsEmpty ? finding with { Severity = Severity.Warning } : finding;
            }
        }
    }

    private IEnumerable<Finding> AtSender(Network network, NodePlan plan)
    {
        var node = plan.Node;
        var plain = plan.Sends.Where(hop => !hop.IsAcknowledged && !hop.IsSentWithoutAcknowledge).ToList();
        if (node.Air is { PayloadLength: { Value.Kind: LengthKind.Dynamic } length, Acknowledge: { } off } && plain.Count > 0)
        {
            var finding = Judge(network, node, length, plain[0].Link.Acknowledge ?? off, $"`{node.Label}` sends packets of dynamic length with acknowledgement off, which needs pipe 0 to have it on");
            // Such packets go out without a length; into a pipe of just theirs they are delivered all the same.
            yield return plain.TrueForAll(hop => LengthOfPipe(network, hop) == hop.Link.Payload?.Size && hop.Riders.IsEmpty) ? finding with { Severity = Severity.Warning } : finding;
        }
    }

    private static int? LengthOfPipe(Network network, Hop hop) => network.Plan.Of(hop.Receiver).Pipes.FirstOrDefault(pipe => pipe.Number == hop.Pipe)?.FixedLength;

    private Finding Judge(Network network, Node node, Stated<LengthMode> length, Stated<bool> off, FormattableString message)
    {
        var place = length.IsDefault ? off.Place : length.Place;
        var map = KeyEdit.Around(
            off.Place, [node.Air.Place, network.Air.Place, node.PipesPlace, .. (node.OwnPipes ?? ImmutableArray<OwnPipe>.Empty).Select(pipe => pipe.Place)]);
        var edit = length.IsDefault ? KeyEdit.After(map, off.Place, "payload-length", "exact") : Edit.Value(length.Place, "exact");
        return At(
            node, place, message,
            length.IsDefault
                ? (FormattableString)$"state `payload-length: exact` (dynamic is the default), or turn acknowledgement on"
                : $"use `payload-length: exact`, or turn acknowledgement on",
            // What rides back needs dynamic lengths and acknowledgement.
            map == off.Place || network.Links.Any(link => link.RidesInAcknowledgement) ? [] : [Offer("Use exact lengths", [edit])]) with
        {
            Related = length.IsDefault ? ImmutableArray<RelatedPlace>.Empty : See(off.Place, $"acknowledgement is off here"),
        };
    }
}
