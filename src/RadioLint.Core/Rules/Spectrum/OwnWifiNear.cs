using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Rules.Spectrum;

/// <summary>RL3205: the node's own Wi-Fi sends a hand's width from the radio's receiver.</summary>
public sealed class OwnWifiNear() : Rule(new(
    "RL3205", Severity.Warning, "Wi-Fi transmitter on the node itself",
    "25 MHz to the edge of the Wi-Fi channel at 250 kbps and 1 Mbps, 36 MHz at 2 Mbps: only from there on the receiver rejects all it can (nRF24L01+ Product Specification 1.0, Table 8)",
    "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Wifi is null && node.Board?.HasWifi is true)
                yield return Waits(node, "wifi");
            if (node.Wifi is not { Value: { } own })
                continue;
            if (node is not { Part: { } part, Air: { Channel: { } channel, ChosenChannel: { } number, ChosenRate: { } rate } }
                || NeighbourPlans.Wifi.Occupied(new(own, null, null, null)) is not { } used || Best(part.Interference.Blocker, rate) is not { } best)
            {
                continue;
            }
            var apart = Apart(part.Channel.Carrier(number), used);
            if (apart >= best)
                continue;
            var nearest = Instead(network, node, rate, used, best);
            yield return At(
                node, channel.Place,
                $"channel {number} is {(apart.Hertz == 0 ? "inside" : $"{apart} from")} Wi-Fi channel {own} of node `{node.Label}` itself, {best - apart} less than the {best} from which its receiver rejects all it can",
                nearest is null ? (FormattableString)$"let Wi-Fi and radio take turns, or move Wi-Fi to the other end of the band" : $"use channel {nearest}, or let Wi-Fi and radio take turns") with
            { Related = See(node.Wifi.Place, $"the node's own Wi-Fi is stated here") };
        }
    }

    /// <summary>What a node's channel lacks to the distance that its own Wi-Fi asks for; null where nothing is missing, or nothing known.</summary>
    internal static Frequency? Missing(Node node, int channel, DataRate rate) =>
        node is { Part: { } part, Wifi.Value: { } own } && NeighbourPlans.Wifi.Occupied(new(own, null, null, null)) is { } used && Best(part.Interference.Blocker, rate) is { } best
            && Apart(part.Channel.Carrier(channel), used) is var apart && apart < best ? best - apart : null;

    /// <summary>From the carrier to the nearer edge; nothing inside.</summary>
    private static Frequency Apart(Frequency carrier, Between<Frequency> used) =>
        carrier < used.Low ? used.Low - carrier : carrier > used.High ? carrier - used.High : default;

    // The last line of the table that the maker states at this rate.
    private static Frequency? Best(System.Collections.Immutable.ImmutableArray<Hardware.InterferenceRow> rows, DataRate rate) =>
        rows.Where(row => row.Rate == rate).OrderBy(row => row.Offset.From).LastOrDefault()?.Offset.From;

    private static int? Instead(Network network, Node node, DataRate rate, Between<Frequency> used, Frequency best) => OpenChannels.Nearest(
        OpenChannels.AllClear(network, node, rate).Where(one => Apart(node.Part!.Channel.Carrier(one), used) >= best), node.Air.ChosenChannel!.Value);
}
