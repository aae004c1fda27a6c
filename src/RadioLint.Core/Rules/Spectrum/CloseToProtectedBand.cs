using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Spectrum;

namespace RadioLint.Rules.Spectrum;

/// <summary>RL3003: the skirt of the signal reaches into a band where only stray emission is allowed.</summary>
public sealed class CloseToProtectedBand() : Rule(new(
    "RL3003", Severity.Warning, "Channel close to a protected band",
    "channel 80 at 2 Mbps or behind a front end, where 2483.5 MHz and up are restricted (47 CFR 15.205; own skirt of nRF24L01+ Product Specification 1.0, Table 6: " +
    "-20 dBc at 2 MHz, -50 dBc at 4 MHz)",
    "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        if (network.Band.ProtectedAbove is not { } edge)
            yield break;
        foreach (var node in network.DistinctNodes)
        {
            // A signal that leaves the band itself is RL3002's.
            if (node is not { Part: { } part, Air: { Channel: { } channel, ChosenChannel: { } number, ChosenRate: { } rate } }
                || part.Occupied(number, rate) is not { } used || !used.IsInside(network.Band.Band)
                || !OpenChannels.IsTooClose(network, node, rate, part.Channel.Carrier(number)))
            {
                continue;
            }
            var last = OpenChannels.For(network, node, rate).Cast<int?>().LastOrDefault();
            var why = node.Radio.FrontEnd is { } front ? $"behind {front.Value}" : "at 2 Mbps";
            yield return At(
                node, channel.Place,
                $"channel {number} {why} is {(edge - part.Channel.Carrier(number)).InMegahertz()} from {edge.InMegahertz()}, where {network.RegionCode?.Value} allows stray emission only",
                $"use channel {last} or lower; the rules of the place of use govern",
                last is null ? [] : [Offer($"Use channel {last}", channel.Place, $"{last}")]) with
            { Subject = channel.Place };
        }
    }
}
