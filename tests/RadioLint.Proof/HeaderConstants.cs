using System.Globalization;

namespace Proof;

/// <summary>The radio's constants of a header: what was planned, CONFIG in each state, links. Numbers in decimal, addresses as bytes in SPI order.</summary>
internal static class HeaderConstants
{
    public static SortedDictionary<string, string> Of(Expected node, int spiKilohertz)
    {
        var (radio, plan) = (node.Node, node.Plan);
        var constants = new SortedDictionary<string, string>(StringComparer.Ordinal)
        {
            ["CHANNEL"] = Number(radio.Channel),
            ["RATE_KBPS"] = Number((long)(1000 / Repeats.BitTime(radio.Rate))),
            ["ADDRESS_WIDTH"] = Number(radio.Width),
            ["CRC_WIDTH"] = Number(radio.Crc),
            ["ACKNOWLEDGE"] = Flag(radio.Acknowledge),
            ["DYNAMIC_LENGTH"] = Flag(radio.Length == "dynamic"),
            ["POWER_DBM"] = radio.Power.Split(' ')[0],
            ["CONFIG_DOWN"] = Number(node.Config(isUp: false, plan.Listens)),
        };
        var lengths = new HashSet<(string Payload, int Length)>();
        if (plan.Listens)
        {
            constants["DYNAMIC_PIPES"] = Number(node.Dynamic());
            constants["CONFIG_LISTEN"] = Number(node.Config(isUp: true, receives: true));
        }
        if (plan.Sends.Count > 0)
            constants["CONFIG_SEND"] = Number(node.Config(isUp: true, receives: false));
        if (plan.WantsAnswers)
        {
            constants["RETRY_DELAY_US"] = Number(plan.Delay!.Value);
            constants["RETRY_LIMIT"] = Number(radio.Limit);
        }
        foreach (var hop in plan.Sends)
        {
            var name = $"TO_{Upper(RoleFrames.Peer(hop))}_{Upper(hop.Link.Payload)}";
            constants[$"{name}_ADDRESS"] = Convert.ToHexString(Expected.Bytes(hop.Address!));
            constants[$"{name}_ACKNOWLEDGE"] = Flag(hop.IsAcknowledged);
            constants[$"{name}_LONGEST_US"] = Number(Longest(hop, plan, spiKilohertz));
            lengths.Add((hop.Link.Payload, hop.SentBytes));
            foreach (var back in hop.Riders)
                constants[$"FROM_{Upper(back.Sender.Name)}_{Upper(back.Link.Payload)}_PIPE"] = "0";
        }
        foreach (var hop in plan.Receives)
        {
            var name = $"FROM_{Upper(hop.Sender.Name)}_{Upper(hop.Link.Payload)}";
            constants[$"{name}_ADDRESS"] = Convert.ToHexString(Expected.Bytes(hop.Address!));
            if (hop.Pipe is { } pipe)
                constants[$"{name}_PIPE"] = Number(pipe);
            lengths.Add((hop.Link.Payload, plan.Pipes.Find(open => open.Number == hop.Pipe)?.FixedLength ?? hop.Link.Bytes));
        }
        foreach (var back in plan.Returns.Where(back => back.Carrier?.Pipe is not null))
            constants[$"TO_{Upper(back.Receiver.Name)}_{Upper(back.Link.Payload)}_PIPE"] = Number(back.Carrier!.Pipe!.Value);
        // What rides back says its own length.
        lengths.UnionWith(plan.Returns.Concat(plan.Sends.SelectMany(hop => hop.Riders)).Select(back => (back.Link.Payload, back.Link.Bytes)));
        foreach (var (payload, length) in lengths)
        {
            var isShortest = lengths.Where(other => other.Payload == payload).Min(other => other.Length) == length;
            constants[$"{Upper(payload)}{(isShortest ? "" : $"_IN_{Number(length)}")}_LENGTH"] = Number(length);
        }
        return constants;
    }

    // T_UL + 130 + (ARC + 1)(T_OA + ARD) + ARC x 130 (from Figures 10 and 17); a packet that is not acknowledged goes once.
    private static long Longest(PlainHop hop, PlainNodePlan plan, int spiKilohertz)
    {
        var radio = hop.Sender;
        var crc = Math.Max(radio.Crc, hop.IsAcknowledged ? 1 : 0);
        var onAir = ((8 * (1 + radio.Width + hop.SentBytes + crc)) + 9) * Repeats.BitTime(radio.Rate);
        var (delay, times) = hop.IsAcknowledged ? (plan.Delay!.Value, radio.Limit) : (0, 0);
        return (long)Math.Ceiling((hop.SentBytes * 8_000m / spiKilohertz) + 130 + ((times + 1) * (onAir + delay)) + (times * 130));
    }

    private static string Upper(string name) => RoleFrames.Ident(name).ToUpperInvariant();

    private static string Number(long value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Flag(bool value) => value ? "1" : "0";
}
