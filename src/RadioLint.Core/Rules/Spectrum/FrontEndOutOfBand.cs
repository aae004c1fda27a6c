using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Spectrum;

namespace RadioLint.Rules.Spectrum;

/// <summary>RL3107: the carrier lies outside what the front end is made for.</summary>
public sealed class FrontEndOutOfBand() : Rule(new(
    "RL3107", Severity.Warning, "Front end outside its frequency range",
    "2360 to 2500 MHz for nRF21540 (nRF21540 Product Specification, electrical specification); others state none", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Part: { } part, FrontEnd: { Frequency.Value: var range } front, Air: { Channel: { } channel, ChosenChannel: { } number } })
                continue;
            var carrier = part.Channel.Carrier(number);
            if (carrier <= range.High && carrier >= range.Low)
                continue;
            var excess = carrier > range.High ? carrier - range.High : range.Low - carrier;
            var nearest = OpenChannels.Nearest(
                OpenChannels.For(network, node, node.Air.ChosenRate).Where(one => part.Channel.Carrier(one) <= range.High && part.Channel.Carrier(one) >= range.Low), number);
            yield return At(
                node, channel.Place,
                $"channel {number} is {excess} outside the range of {front.Name}, {range.Low.InMegahertz()} to {range.High.InMegahertz()}",
                nearest is null ? (FormattableString)$"use another front end; the rules of the place of use govern" : $"use channel {nearest}; the rules of the place of use govern",
                nearest is null ? [] : [Offer($"Use channel {nearest}", channel.Place, $"{nearest}")]) with
            { Related = See(node.Radio.FrontEnd!.Place, $"the front end is stated here") };
        }
    }
}
