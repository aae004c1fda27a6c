using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Text;

namespace RadioLint.Rules.Spectrum;

/// <summary>RL3001: the channel number is one that the chip cannot tune.</summary>
public sealed class ChannelOutOfReach() : Rule(new(
    "RL3001", Severity.Error, "Channel that the chip cannot tune",
    "channels 0 to 125, 2400 + n MHz (nRF24L01+ Product Specification 1.0, 6.3)", "0.1")
{
    Silences = ["RL3002", "RL3003"],
    StopsDelivery = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        // One line may be the cause for several parts: the first node by name is told of, whatever the order of the file.
        foreach (var node in network.DistinctNodes.Where(node => node is { Air.ChosenChannel: { } chosen, Part.Channel: var channel } && (chosen < channel.First || chosen > channel.Last))
            .OrderBy(node => node.Name, NaturalOrder.Instance))
        {
            var (number, place, reach) = (node.Air.ChosenChannel!.Value, node.Air.Channel!.Place, node.Part!.Channel);
            // Never one that the region does not open, though the chip could tune it.
            var nearest = OpenChannels.Nearest(OpenChannels.For(network, node, node.Air.ChosenRate), number);
            yield return At(
                node, place,
                $"channel {number} is outside {reach.First} to {reach.Last}, what {node.Part.Name} can tune",
                nearest is null
                    ? (FormattableString)$"use a channel inside the band; the rules of the place of use govern"
                    : $"use channel {nearest}, the nearest inside the band; the rules of the place of use govern",
                nearest is null ? [] : [Offer($"Use channel {nearest}", place, $"{nearest}")]) with
            { Subject = place };
        }
    }
}
