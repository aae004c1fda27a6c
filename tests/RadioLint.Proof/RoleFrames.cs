namespace Proof;

/// <summary>
/// A node with several destinations, or that sends and listens: what each role wants in the registers, and of that whatever is not the same in all roles and the
/// image. Pipe 0 is the destination's while it sends, and its own or closed while it listens.
/// </summary>
internal static class RoleFrames
{
    private static readonly string[] Order = ["EN_RXADDR", "EN_AA", "DYNPD", "RX_ADDR_P0", "TX_ADDR", "CONFIG"];

    public static IReadOnlyDictionary<string, IReadOnlyList<byte[]>> Of(Expected node)
    {
        var plan = node.Plan;
        var destinations = plan.Sends.OrderBy(hop => Peer(hop), Names.Natural).ThenBy(hop => hop.Link.Payload, Names.Natural).ThenBy(hop => hop.Address, StringComparer.Ordinal).DistinctBy(hop => hop.Address).ToList();
        var roles = new Dictionary<string, Dictionary<string, byte[]>>(StringComparer.Ordinal);
        if (destinations.Count == 0 || (destinations.Count == 1 && !plan.Listens))
            return new Dictionary<string, IReadOnlyList<byte[]>>();
        foreach (var hop in destinations)
        {
            var name = $"aim_{Ident(Peer(hop))}";
            roles.Add(destinations.Count(other => Peer(other) == Peer(hop)) > 1 ? $"{name}_{Ident(hop.Link.Payload)}" : name, Towards(node, hop));
        }
        if (plan.Listens)
            roles.Add("listen", Listening(node));
        var image = node.Frames.GroupBy(frame => frame[0]).ToDictionary(group => group.Key, group => group.Last()[1..]);
        var changing = Order.Where(register =>
        {
            var states = roles.Values.Where(role => role.ContainsKey(register)).Select(role => Convert.ToHexString(role[register])).ToHashSet();
            if (image.TryGetValue(Words.Write(RegisterTable.Address(register)), out var held))
                return states.Count > 0 && states.Append(Convert.ToHexString(held)).Distinct().Count() > 1;
            return states.Count > 0;
        }).ToList();
        return roles.ToDictionary(
            role => role.Key, IReadOnlyList<byte[]> (role) => [.. changing.Where(role.Value.ContainsKey).Select(register => Expected.Frame(register, role.Value[register]))], StringComparer.Ordinal);
    }

    internal static string Peer(PlainHop hop) => hop.Link.Broadcasts ? "broadcast" : hop.Receiver.Name;

    internal static string Ident(string name) => name.Replace('-', '_');

    private static Dictionary<string, byte[]> Towards(Expected node, PlainHop hop)
    {
        var plan = node.Plan;
        var role = new Dictionary<string, byte[]> { ["TX_ADDR"] = Expected.Bytes(hop.Address!) };
        if (hop.IsAcknowledged)
            role["RX_ADDR_P0"] = Expected.Bytes(hop.Address!);
        if (!plan.Listens)
            return role;
        role["CONFIG"] = [node.Config(isUp: true, receives: false)];
        role["EN_RXADDR"] = [Pipe0(node, "EN_RXADDR", "ERX_P0", hop.IsAcknowledged && !plan.ClosesPipe0)];
        if (plan.OwnPipe0 is not null)
        {
            role["EN_AA"] = [Pipe0(node, "EN_AA", "ENAA_P0", hop.HasControl)];
            role["DYNPD"] = [Pipe0(node, "DYNPD", "DPL_P0", hop.HasControl && node.Node.Length == "dynamic")];
        }
        return role;
    }

    private static Dictionary<string, byte[]> Listening(Expected node)
    {
        var own = node.Plan.OwnPipe0;
        var role = new Dictionary<string, byte[]>
        {
            ["CONFIG"] = [node.Config(isUp: true, receives: true)],
            ["EN_RXADDR"] = [Pipe0(node, "EN_RXADDR", "ERX_P0", own is not null)],
        };
        if (own is null)
            return role;
        role["EN_AA"] = [Pipe0(node, "EN_AA", "ENAA_P0", own.Acknowledges)];
        role["DYNPD"] = [Pipe0(node, "DYNPD", "DPL_P0", own.FixedLength is null)];
        role["RX_ADDR_P0"] = Expected.Bytes(own.Address);
        return role;
    }

    private static byte Pipe0(Expected node, string register, string field, bool isSet)
    {
        var held = node.Frames.Last(frame => frame[0] == Words.Write(RegisterTable.Address(register)))[1];
        var bit = node.Table.Byte(register, (field, 1));
        return (byte)(isSet ? held | bit : held & ~bit);
    }
}
