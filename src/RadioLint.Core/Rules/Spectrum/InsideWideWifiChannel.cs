using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Spectrum;

namespace RadioLint.Rules.Spectrum;

/// <summary>RL3202: the channel lies inside a Wi-Fi channel of 40 MHz, half of which its number alone does not tell.</summary>
public sealed class InsideWideWifiChannel() : Rule(new(
    "RL3202", Severity.Warning, "Channel inside a 40 MHz Wi-Fi channel of the site",
    "40 MHz about the middle of a pair of Wi-Fi channels, 2407 + 5c MHz each; without the partner both possible pairs (IEEE 802.11; rectangles, touching edges do not overlap)",
    "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var (node, wifi, taken) in InsideWifiChannel.Meetings(network).Where(meeting => NeighbourPlans.Wifi.IsWide(meeting.Wifi.Value)))
        {
            var nearest = OpenChannels.Clear(network, node, node.Air.ChosenRate!.Value, node.Air.ChosenChannel!.Value);
            yield return At(
                node, node.Air.Channel!.Place,
                $"channel {node.Air.ChosenChannel} lies inside what Wi-Fi channel {InsideWifiChannel.Named(wifi.Value)} may fill at 40 MHz, {taken.Low.InMegahertz()} to {taken.High.InMegahertz()}",
                nearest is null
                    ? (FormattableString)$"set the access point to 20 MHz, or measure which channel is quietest: none is clear of all declared neighbours"
                    : $"use channel {nearest}, or set the access point to 20 MHz",
                nearest is null ? [] : [Offer($"Use channel {nearest}", node.Air.Channel.Place, $"{nearest}")]) with
            {
                Related = See(wifi.Place, wifi.Value.Partner is null ? (FormattableString)$"its partner is not stated, so both count" : $"the pair is declared here"),
            };
        }
    }
}
