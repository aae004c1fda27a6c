using RadioLint.Emit;
using RadioLint.Facts;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Simulation;
using Air = RadioLint.Simulation.Air;

namespace RadioLint.Tests.Truth;

/// <summary>
/// What becomes of a network's packets on the chip model: one link at a time, every node awake and in range, no other traffic. What the emitted
/// headers would write is written, the packets go over SPI, and what comes out is compared.
/// </summary>
public sealed class OnTheModel
{
    private const byte TxDone = 0x20;
    private const byte GaveUp = 0x10;

    private readonly Network network;
    private readonly Dictionary<Node, NodeFacts> facts = [];
    private Air air = new();
    private Dictionary<Node, Chip> chips = [];

    private OnTheModel(Network network) => this.network = network;

    /// <summary>Null when every declared packet arrives as declared; else what fails first.</summary>
    public static string? FaultOf(Network network)
    {
        var run = new OnTheModel(network);
        foreach (var node in network.Nodes)
        {
            if (NodeFacts.Of(network, network.Plan.Of(node)) is not { } known)
                return $"{node.Name} cannot be configured";
            run.facts.Add(node, known);
        }
        return network.Nodes.Select(run.Undefined).FirstOrDefault(fault => fault is not null) ?? run.Hops().Select(run.FaultOf).FirstOrDefault(fault => fault is not null);
    }

    // What the data sheet leaves undefined counts as not delivered, whatever the model makes of it: the last byte of an address must differ among all open
    // pipes (nRF24L01+ Product Specification 1.0, 7.6 p39).
    private string? Undefined(Node node)
    {
        Configure();
        if (!facts[node].Plan.Listens)
            return null;
        var chip = chips[node];
        var lowest = Enumerable.Range(0, 6).Where(pipe => (chip.Read(0x02) & (1 << pipe)) != 0).Select(pipe => (byte)chip.ReadWide((byte)(0x0A + pipe))).ToList();
        return lowest.Distinct().Count() == lowest.Count ? null : $"two pipes of {node.Name} end in the same byte";
    }

    // A broadcast is one packet to all; it is sent once a link.
    private IEnumerable<List<Hop>> Hops() => network.Hops.Where(hop => hop.Link.Payload is not null)
        .GroupBy(hop => hop.Link.IsBroadcast ? (object)(hop.Link, hop.Sender) : hop).Select(group => group.ToList());

    private string? FaultOf(List<Hop> hops)
    {
        var hop = hops[0];
        if (hop.Link.RidesBack?.Value == true)
        {
            if (hop.Carrier is not { } carrier)
                return $"{hop.Label}: nothing carries it";
            Configure();
            return Exchange(carrier, [carrier], hop);
        }
        // A CRC of one byte fits by chance once in 256 packets; where the two ends differ in it one packet proves nothing.
        var packets = hops.Any(heard => HasOtherCrc(heard)) ? 4 : 1;
        for (var packet = 1; packet <= packets; packet++)
        {
            Configure();
            if (Exchange(hop, hops, null, packet) is { } fault)
                return fault;
        }
        return null;
    }

    private bool HasOtherCrc(Hop hop) => (facts[hop.Sender].Image[RadioLint.Radio.Registers.Config]!.Value[0] & 0x0C) != (facts[hop.Receiver].Image[RadioLint.Radio.Registers.Config]!.Value[0] & 0x0C);

    private void Configure()
    {
        air = new();
        chips = network.Nodes.ToDictionary(node => node, node => air.Add(ChipVariants.Find(node.Part!.Name)!));
        air.AdvanceBy(200 * Ticks.PerMillisecond);
        foreach (var (node, chip) in chips)
        {
            var image = facts[node].Image;
            if (image.NeedsUnlock)
            {
                chip.Transfer([.. image.Frames[0].Bytes]);
                chip.Transfer(0x50, 0x73);
            }
            foreach (var frame in image.Frames)
                chip.Transfer([.. frame.Bytes]);
        }
        air.AdvanceBy(5 * Ticks.PerMillisecond);
        foreach (var (node, chip) in chips.Where(one => facts[one.Key].Plan.Listens))
        {
            Walk(chip, RoleTables.Of(facts[node], "x").Listen);
            chip.Ce(true, air.Now);
        }
        air.AdvanceBy(Ticks.PerMillisecond);
    }

    private string? Exchange(Hop hop, List<Hop> hops, Hop? rider, int seed = 1)
    {
        var sender = chips[hop.Sender];
        var known = facts[hop.Sender];
        if (known.Outgoing.FirstOrDefault(link => link.Hop == hop || (link.Hop.Address is { } same && same.Equals(hop.Address) && link.Payload == hop.Link.Payload)) is not { } link)
            return $"{hop.Label}: the sender knows no such packet";
        sender.Ce(false, air.Now);
        air.AdvanceBy(Ticks.PerMillisecond);
        Aim(sender, known, hop);
        air.AdvanceBy(Ticks.PerMillisecond);
        var length = known.SentLength(link);
        if (length is < 1 or > 32 || hop.Link.Payload!.Size > length)
            return $"{hop.Label}: {hop.Link.Payload!.Size} bytes do not go into a packet of {length}";
        var payload = Content(hop.Link.Payload!.Size, length, seed);
        if (rider is not null)
        {
            if (rider.Link.Payload!.Size is < 1 or > 32)
                return $"{rider.Label}: {rider.Link.Payload.Size} bytes are no packet";
            chips[hop.Receiver].Transfer([(byte)(Command.WAckPayload | hop.Pipe!.Value), .. Content(rider.Link.Payload.Size, rider.Link.Payload.Size, 2)]);
        }
        sender.Transfer([hop.IsSentWithoutAcknowledge ? Command.WTxPayloadNoAck : Command.WTxPayload, .. payload]);
        sender.Ce(true, air.Now);
        air.AdvanceBy(Ticks.Microseconds(15));
        sender.Ce(false, air.Now);
        // Sixteen sendings of the longest packet with the longest delay are over by then.
        for (var step = 0; step < 400 && (sender.Status & (TxDone | GaveUp)) == 0; step++)
            air.AdvanceBy(Ticks.Microseconds(250));
        air.AdvanceBy(2 * Ticks.PerMillisecond);
        if ((sender.Status & GaveUp) != 0)
            return $"{hop.Label}: the sender gave up";
        if ((sender.Status & TxDone) == 0)
            return $"{hop.Label}: nothing was sent";
        foreach (var heard in hops)
        {
            if (Received(chips[heard.Receiver], payload, heard.Pipe) is { } fault)
                return $"{heard.Label}: {fault}";
        }
        return rider is null ? null : Received(sender, Content(rider.Link.Payload!.Size, rider.Link.Payload.Size, 2), 0) is { } lost ? $"{rider.Label}: {lost}" : null;
    }

    private static string? Received(Chip chip, byte[] payload, int? pipe)
    {
        if (chip.RxFifo.Count != 1)
            return $"{chip.RxFifo.Count} packets arrived";
        if (!chip.RxFifo.Payload(0).SequenceEqual(payload))
            return $"{chip.RxFifo.Info(0).Length} bytes arrived, {payload.Length} were sent, or they differ";
        return chip.RxFifo.Info(0).Pipe == pipe ? null : $"it arrived on pipe {chip.RxFifo.Info(0).Pipe}, not {pipe}";
    }

    private static void Aim(Chip chip, NodeFacts known, Hop hop)
    {
        var aims = RoleTables.Of(known, "x").Aims;
        if (aims.IsEmpty)
            return;
        var addresses = known.Outgoing.Where(link => link.Hop.Address is not null).Select(link => link.Hop.Address).Distinct().ToList();
        Walk(chip, aims[addresses.IndexOf(hop.Address)].Table);
    }

    private static void Walk(Chip chip, FrameTable? table)
    {
        foreach (var frame in table?.Frames ?? [])
        {
            var bytes = frame.Bytes.Split(", ").Select(one => Convert.ToByte(one.TrimEnd('u'), one.StartsWith("0x", StringComparison.Ordinal) ? 16 : 10)).ToArray();
            chip.Transfer(bytes.AsSpan(1));
        }
    }

    private static byte[] Content(int size, int length, int seed)
    {
        var content = new byte[length];
        for (var i = 0; i < Math.Min(size, length); i++)
            content[i] = (byte)(i * 37 + seed * 101 + 11);
        return content;
    }
}
