using System.Collections.Immutable;
using RadioLint.Facts;
using RadioLint.Model;
using RadioLint.Radio;

namespace RadioLint.Emit;

/// <summary>
/// Small tables for a node that sends to several or both sends and listens: what differs from role to role, power staying on. While it
/// listens pipe 0 holds no sender's address, else it would acknowledge for its last destination.
/// </summary>
internal static class RoleTables
{
    private const byte PrimRx = 0x01;
    private const byte Pipe0 = 0x01;

    private sealed record Role(byte Register, string Name, string Meaning, ImmutableArray<byte> Data);

    public static (ImmutableArray<Aim> Aims, FrameTable? Listen) Of(NodeFacts facts, string ident)
    {
        var plan = facts.Plan;
        var destinations = Destinations(facts);
        if (destinations.Count == 0 || (destinations.Count == 1 && !plan.Listens))
            return ([], null);
        var towards = destinations.Select(link => Towards(facts, link)).ToList();
        var listening = plan.Listens ? Listening(facts) : null;
        var all = listening is null ? towards : [.. towards, listening];
        var changes = all.SelectMany(role => role).GroupBy(state => state.Register)
            .Where(states => states.Select(state => Convert.ToHexString(state.Data.AsSpan())).Distinct(StringComparer.Ordinal).Count() > 1
                || IsOnlyInImageOtherwise(facts, states))
            .Select(states => states.Key).ToHashSet();
        var aims = destinations.Select((link, i) =>
        {
            var name = NameOf(destinations, link, ident);
            return new Aim(name, link.Hop.Link.IsBroadcast ? "the broadcast address" : link.Peer, FrameTable.Of(name + "_frames", Frames(towards[i], changes)));
        });
        return ([.. aims], listening is null ? null : FrameTable.Of(ident + "_listen_frames", Frames(listening, changes)));
    }

    /// <summary>Which of the aims a packet of this link needs.</summary>
    public static int IndexOf(NodeFacts facts, LinkFact link) => Destinations(facts).FindIndex(other => other.Hop.Address!.Equals(link.Hop.Address));

    private static List<LinkFact> Destinations(NodeFacts facts) =>
        [.. facts.Outgoing.Where(link => link.Hop.Address is not null).DistinctBy(link => link.Hop.Address)];

    // A register that one role alone sets still changes if the image holds something else.
    private static bool IsOnlyInImageOtherwise(NodeFacts facts, IEnumerable<Role> states) =>
        states.Any(state => facts.Image[state.Register] is not { } held || !held.AsSpan().SequenceEqual(state.Data.AsSpan()));

    private static string NameOf(List<LinkFact> destinations, LinkFact link, string ident)
    {
        var name = $"{ident}_aim_{C.Identifier(link.Peer)}";
        return destinations.Count(other => other.Peer == link.Peer) == 1 ? name : $"{name}_{C.Identifier(link.Payload.Name)}";
    }

    private static List<Role> Towards(NodeFacts facts, LinkFact link)
    {
        var (image, hop, address) = (facts.Image, link.Hop, link.Hop.Address!);
        var roles = new List<Role>();
        if (facts.Plan.Listens)
        {
            var asks = hop.IsAcknowledged || hop.IsSentWithoutAcknowledge;
            var isDynamic = asks && facts.Node.Air.PayloadLength?.Value.Kind is LengthKind.Dynamic;
            roles.Add(OfPipe0(image, Registers.EnRxAddr, "EN_RXADDR", hop.IsAcknowledged && !facts.Plan.HasClosedPipe0, hop.IsAcknowledged && !facts.Plan.HasClosedPipe0 ? "pipe 0 for the acknowledgement" : "pipe 0 closed"));
            if (ListensOnPipe0(facts))
            {
                roles.Add(OfPipe0(image, Registers.EnAa, "EN_AA", asks, "pipe 0 as a sender needs it"));
                roles.Add(OfPipe0(image, Registers.Dynpd, "DYNPD", isDynamic, "pipe 0 as a sender needs it"));
            }
        }
        if (hop.IsAcknowledged)
            roles.Add(new(Registers.RxAddrP0, "RX_ADDR_P0", "acknowledgements come back to the same address", address.RegisterBytes));
        roles.Add(new(Registers.TxAddr, "TX_ADDR", $"send to {address}", address.RegisterBytes));
        if (facts.Plan.Listens)
            roles.Add(new(Registers.Config, "CONFIG", "transmitter", [(byte)(PoweredUp(image) & ~PrimRx)]));
        return roles;
    }

    private static List<Role> Listening(NodeFacts facts)
    {
        var (image, own) = (facts.Image, facts.Plan.Pipes.FirstOrDefault(pipe => pipe.Number == 0));
        var roles = new List<Role>
        {
            OfPipe0(image, Registers.EnRxAddr, "EN_RXADDR", own is not null, own is null ? "pipe 0 closed again" : "pipe 0 listens"),
        };
        if (own is not null)
        {
            roles.Add(OfPipe0(image, Registers.EnAa, "EN_AA", own.Acknowledges, "pipe 0 as it listens"));
            roles.Add(OfPipe0(image, Registers.Dynpd, "DYNPD", own.FixedLength is null, "pipe 0 as it listens"));
            if (own.Address is { } address)
                roles.Add(new(Registers.RxAddrP0, "RX_ADDR_P0", $"{address}", address.RegisterBytes));
        }
        roles.Add(new(Registers.Config, "CONFIG", "receiver", [(byte)(PoweredUp(image) | PrimRx)]));
        return roles;
    }

    private static bool ListensOnPipe0(NodeFacts facts) => facts.Plan.Pipes.Any(pipe => pipe.Number == 0);

    private static Role OfPipe0(RegisterImage image, byte register, string name, bool isSet, string meaning)
    {
        var others = (image[register]?[0] ?? 0) & ~Pipe0;
        return new(register, name, meaning, [(byte)(others | (isSet ? Pipe0 : 0))]);
    }

    private static byte PoweredUp(RegisterImage image) => image.Frames[^1].Data[0];

    private static ImmutableArray<Frame> Frames(List<Role> roles, HashSet<byte> changes) =>
        [.. roles.Where(role => changes.Contains(role.Register)).Select(role => Frame.Write(role.Register, role.Name, role.Meaning, [.. role.Data]))];
}
