using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Spectrum;

/// <summary>RL3002: a transmission fills spectrum past the edge of the band that the region allows.</summary>
public sealed class OccupiedBandLeavesRegion() : Rule(new(
    "RL3002", Severity.Error, "Occupied band leaves the region's band",
    "the band of the declared region; 20 dB width 0.8, 1.0, 2.0 MHz and crystal 60 ppm either way (nRF24L01+ Product Specification 1.0, Tables 6 and 11)",
    "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        var band = network.Band.Band;
        // A channel may be stated once for several rates: the one that reaches farthest is told.
        var farthest = new Dictionary<Place, (Node Node, Frequency Excess, string Side)>();
        foreach (var node in network.DistinctNodes)
        {
            if (node is not { Part: { } part, Air: { Channel: { } channel, ChosenChannel: { } number, ChosenRate: { } rate } }
                || part.Occupied(number, rate) is not { } used || used.IsInside(band))
            {
                continue;
            }
            var (excess, side) = used.High > band.High ? (used.High - band.High, "above") : (band.Low - used.Low, "below");
            if (!farthest.TryGetValue(channel.Place, out var other) || excess > other.Excess)
                farthest[channel.Place] = (node, excess, side);
        }
        foreach (var (node, excess, side) in farthest.Values)
        {
            var (channel, number, rate) = (node.Air.Channel!, node.Air.ChosenChannel!.Value, node.Air.ChosenRate!.Value);
            var nearest = OpenChannels.Nearest(OpenChannels.For(network, node, rate), number);
            yield return At(
                node, channel.Place,
                $"channel {number} at {rate.InManifest()} reaches {RoundedUp(excess)} {side} the band of {RegionOf(network)} ({band.Low.InMegahertz()} to {band.High.InMegahertz()})",
                nearest is null
                    ? (FormattableString)$"use a lower rate: no channel stays inside at {rate.InManifest()}; the rules of the place of use govern"
                    : $"use channel {nearest}, the nearest that stays inside; the rules of the place of use govern",
                nearest is null ? [] : [Offer($"Use channel {nearest}", channel.Place, $"{nearest}")]) with
            { Subject = channel.Place };
        }
    }

    internal static string RegionOf(Network network) => network.RegionCode?.Value ?? "an undeclared region";

    // To 10 kHz, away from zero: an excess is never shown as none.
    private static string RoundedUp(Frequency excess) => new Frequency((excess.Hertz + 9_999) / 10_000 * 10_000).InMegahertz();
}
