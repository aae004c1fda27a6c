using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Rules.Observed;
using RadioLint.Text;

namespace RadioLint.Readback;

/// <summary>Holds each packet that a node tells of against the layouts planned for its pipe; keeps one place and a count for each kind of misfit.</summary>
public sealed class PacketWatch(Network network)
{
    private readonly Dictionary<string, NodePlan> plans = network.Nodes.ToDictionary(node => node.Name, network.Plan.Of, StringComparer.Ordinal);
    private readonly Dictionary<(string Node, int Pipe), ImmutableArray<Payload>> planned = [];
    private readonly Dictionary<(string Node, int Pipe, string Kind), Misfit> misfits = [];

    /// <summary>Looks at one packet.</summary>
    public void Add(ReportedPacket packet)
    {
        if (!plans.TryGetValue(packet.Node, out var plan))
            return;
        var payloads = Planned(plan, packet.Pipe);
        var faults = payloads.Select(payload => PacketFit.FaultIn(payload, packet.Bytes, LengthOn(plan, packet.Pipe))).ToList();
        if (faults.Contains(null))
            return;
        var (fault, kind) = payloads.IsEmpty ? ("nothing is planned to arrive there", "") : faults[0]!.Value;
        var key = (packet.Node, packet.Pipe, kind);
        if (misfits.TryGetValue(key, out var known))
            known.Count++;
        // A bound for logs that are made to hurt: pipes and lengths are few.
        else if (misfits.Count < LogLimits.MostNodes)
            misfits.Add(key, new(plan, packet, payloads.IsEmpty ? null : payloads[0], fault));
    }

    /// <summary>A finding for each kind of misfit, in the order of its first packet.</summary>
    public IEnumerable<Finding> End() => misfits.Values.OrderBy(one => one.Packet.Place.Source.FirstLine).ThenBy(one => one.Packet.Place.Start)
        .Select(one => PacketDoesNotFit.At(one.Plan.Node, one.Packet, one.Payload, one.Fault, one.Count));

    // What arrives on a pipe, and on a sender's pipe 0 what rides back.
    private ImmutableArray<Payload> Planned(NodePlan plan, int pipe)
    {
        var key = (plan.Node.Name, pipe);
        if (!planned.TryGetValue(key, out var payloads))
        {
            var hops = plan.Receives.Where(hop => hop.Pipe == pipe).Concat(pipe == 0 ? plan.Sends.SelectMany(hop => hop.Riders) : []);
            payloads = ImmutableArray.CreateRange(hops.Select(hop => hop.Link.Payload).OfType<Payload>().Where(payload => payload.HasKnownSize).DistinctBy(payload => payload.Name));
            planned.Add(key, payloads);
        }
        return payloads;
    }

    private static int? LengthOn(NodePlan plan, int pipe) => plan.Pipes.FirstOrDefault(one => one.Number == pipe)?.FixedLength;

    private sealed class Misfit(NodePlan plan, ReportedPacket packet, Payload? payload, string fault)
    {
        public NodePlan Plan => plan;

        public ReportedPacket Packet => packet;

        public Payload? Payload => payload;

        public string Fault => fault;

        public int Count { get; set; } = 1;
    }
}
