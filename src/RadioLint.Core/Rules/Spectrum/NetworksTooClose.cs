using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Manifest;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Rules.Spectrum;

/// <summary>RL3207: another network of this kind sends too near in frequency.</summary>
public sealed class NetworksTooClose() : Rule(new(
    "RL3207", Severity.Warning, "Two networks too close in frequency",
    "2 MHz at 250 kbps and 1 Mbps, 4 MHz at 2 Mbps: nearer, the wanted signal must be the stronger one (nRF24L01+ Product Specification 1.0, Table 9; crystals Table 11)",
    "0.1")
{
    ComparesNetworks = true,
})
{
    public override IEnumerable<Finding> Check(Network network)
    {
        var others = network.OtherNetworks.ToList();
        if (others.Count == 0)
            yield break;
        // The fastest need the most: they speak first where one line is the channel of several.
        foreach (var node in OpenChannels.Airs(network).OrderByDescending(node => node.Air.ChosenRate))
        {
            var own = new NetworkOnAir(node.Part!.Channel.Carrier(node.Air.ChosenChannel!.Value), node.Air.ChosenRate, ImmutableArray<AddressOnAir>.Empty);
            foreach (var other in others)
            {
                if (OpenChannels.OnAir(node, other.Value) is { } air && Coexistence.IsTooClose(own, air))
                    yield return TooClose(network, node, own, other, air);
            }
        }
    }

    private Finding TooClose(Network network, Node node, NetworkOnAir own, Stated<OtherNetwork> other, NetworkOnAir air)
    {
        var (channel, rate) = (node.Air.Channel!, node.Air.ChosenRate!.Value);
        var named = other.Value.Name is { } name ? $"network `{name.Value}`" : "another network";
        var least = Coexistence.Needed(own, air, Coexistence.LeastSpacing);
        var apart = Coexistence.Distance(own, air);
        var nearest = OpenChannels.Clear(network, node, rate, channel.Value.Number!.Value);
        return At(
            node, channel.Place,
            apart.Hertz == 0
                ? (FormattableString)$"channel {channel.Value.Number} is also that of {named}; {least} between the two are needed"
                : $"channel {channel.Value.Number} is {apart} from channel {other.Value.Channel!.Value.Number} of {named}, {least - apart} less than the {least} that are needed",
            nearest is null
                ? (FormattableString)$"keep the nodes of the two networks apart, or agree on times: no channel is clear of all declared neighbours"
                : $"use channel {nearest}, {Coexistence.Needed(own, air, Coexistence.GoodSpacing)} or more from this network and clear of all other declared neighbours",
            nearest is null ? [] : [Offer($"Use channel {nearest}", channel.Place, $"{nearest}")]) with
        {
            // RL4301 speaks of the same pair where their addresses begin alike too.
            Subject = other.Place,
            Related = See(other.Value.Channel!.Place, $"{named} is declared here"),
        };
    }
}
