using System.Collections.Immutable;
using RadioLint.Findings;
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
        if (network.Neighbours.Wifi.IsEmpty)
            yield break;
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Part: { } part, Air: { Channel: { } channel, ChosenChannel: { } number, ChosenRate: { } rate } } || part.Rate(rate) is null)
                continue;
            foreach (var wifi in network.Neighbours.Wifi)
            {
                if (NeighbourPlans.Wifi.Occupied(wifi.Value) is not { } taken || !Overlaps(node, number, rate, taken))
                    continue;
                var free = OpenChannels.For(network, node, rate).Where(one => network.Neighbours.Wifi.All(
                    other => NeighbourPlans.Wifi.Occupied(other.Value) is not { } all || !Overlaps(node, one, rate, all)));
                var nearest = OpenChannels.Nearest(free, number);
                yield return At(
                    node, channel.Place,
                    $"channel {number} lies inside Wi-Fi channel {Named(wifi.Value)}, {taken.Low.InMegahertz()} to {taken.High.InMegahertz()}, which the site has",
                    nearest is null ? (FormattableString)$"measure which channel is quietest: none lies outside all declared Wi-Fi channels" : $"use channel {nearest}, the nearest outside all declared Wi-Fi channels",
                    nearest is null ? [] : [Offer($"Use channel {nearest}", channel.Place, $"{nearest}")]) with
                {
                    Subject = channel.Place,
                    Related = ImmutableArray.Create(new RelatedPlace(wifi.Place, $"Wi-Fi channel {Named(wifi.Value)} is declared here")),
                };
            }
        }
    }

    // Nominal widths, without the crystals' error: a neighbour's plan is no sharper than that.
    private static bool Overlaps(Node node, int channel, DataRate rate, Between<Frequency> taken) =>
        NeighbourPlans.Overlap(Emission.Around(node.Part!.Channel.Carrier(channel), node.Part.Rate(rate)!.Width.Value, default), taken) is not null;

    private static string Named(WifiNeighbour wifi) => wifi.Partner is { } partner
        ? FormattableString.Invariant($"{wifi.Channel}+{partner}")
        : FormattableString.Invariant($"{wifi.Channel}");
}
