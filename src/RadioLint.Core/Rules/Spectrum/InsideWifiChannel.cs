using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Rules.Spectrum;

/// <summary>RL3201: the channel lies inside a Wi-Fi channel that the site is said to have.</summary>
public sealed class InsideWifiChannel() : Rule(new(
    "RL3201", Severity.Warning, "Channel inside a Wi-Fi channel of the site",
    "Wi-Fi channel c at 2407 + 5c MHz, 20 MHz wide unless stated (IEEE 802.11; rectangles, touching edges do not overlap)", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var (node, wifi, taken) in Meetings(network).Where(meeting => !NeighbourPlans.Wifi.IsWide(meeting.Wifi.Value)))
        {
            var channel = node.Air.ChosenChannel!.Value;
            var nearest = OpenChannels.Clear(network, node, node.Air.ChosenRate!.Value, channel);
            yield return At(
                node, node.Air.Channel!.Place,
                $"channel {channel} lies inside Wi-Fi channel {Named(wifi.Value)}, {taken.Low.InMegahertz()} to {taken.High.InMegahertz()}, which the site has",
                nearest is null ? (FormattableString)$"measure which channel is quietest: none is clear of all declared neighbours" : $"use channel {nearest}, the nearest clear of all declared neighbours",
                nearest is null ? [] : [Offer($"Use channel {nearest}", node.Air.Channel.Place, $"{nearest}")]) with
            {
                Related = See(wifi.Place, $"Wi-Fi channel {Named(wifi.Value)} is declared here"),
            };
        }
    }

    /// <summary>Every node with every declared Wi-Fi channel that its own lies in.</summary>
    internal static IEnumerable<(Node Node, Stated<WifiNeighbour> Wifi, Between<Frequency> Taken)> Meetings(Network network)
    {
        if (network.Neighbours.Wifi.IsEmpty)
            yield break;
        foreach (var node in OpenChannels.Airs(network))
        {
            var (number, rate) = (node.Air.ChosenChannel!.Value, node.Air.ChosenRate!.Value);
            foreach (var wifi in network.Neighbours.Wifi)
            {
                if (NeighbourPlans.Wifi.Occupied(wifi.Value) is { } taken && OpenChannels.Overlaps(node, number, rate, taken))
                    yield return (node, wifi, taken);
            }
        }
    }

    internal static string Named(WifiNeighbour wifi) => wifi.Partner is { } partner
        ? FormattableString.Invariant($"{wifi.Channel}+{partner}")
        : FormattableString.Invariant($"{wifi.Channel}");
}
