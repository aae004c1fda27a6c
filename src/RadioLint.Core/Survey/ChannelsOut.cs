using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>Channels that are out before anything is counted: listening there is allowed, sending is not, or is not wanted.</summary>
internal static class ChannelsOut
{
    /// <summary>Why a channel may not be used by a network, by number; null where it may.</summary>
    public static string?[] Of(Network network)
    {
        var reasons = new string?[Sweep.Channels];
        foreach (var node in network.DistinctNodes.Where(each => each.Part is not null))
        {
            for (var channel = 0; channel < Sweep.Channels; channel++)
                reasons[channel] ??= Reason(network, node, channel);
        }
        return reasons;
    }

    private static string? Reason(Network network, Node node, int channel)
    {
        var part = node.Part!;
        if (channel < part.Channel.First || channel > part.Channel.Last)
            return FormattableString.Invariant($"{part.Name} cannot tune it");
        var rate = node.Air.ChosenRate is { } chosen && part.Rate(chosen) is not null ? chosen : part.Rates[part.Rates.Length - 1].Rate;
        var carrier = part.Channel.Carrier(channel);
        var band = network.Band.Band;
        var region = network.RegionCode?.Value ?? "an undeclared region";
        if (part.Occupied(channel, rate) is { } used && !used.IsInside(band))
        {
            var (excess, side) = used.High > band.High ? (used.High - band.High, "above") : (band.Low - used.Low, "below");
            return FormattableString.Invariant(
                $"at {rate.InManifest()} it reaches {RoundedUp(excess)} {side} the band of {region} ({band.Low.InMegahertz()} to {band.High.InMegahertz()})");
        }
        if (OpenChannels.IsTooClose(network, node, rate, carrier))
            return FormattableString.Invariant($"{(network.Band.ProtectedAbove!.Value - carrier).InMegahertz()} from {network.Band.ProtectedAbove.Value.InMegahertz()}, where {region} allows stray emission only");
        if (node.FrontEnd is { Frequency.Value: var range } front && (carrier < range.Low || carrier > range.High))
            return FormattableString.Invariant($"outside the range of {front.Name}, {range.Low.InMegahertz()} to {range.High.InMegahertz()}");
        return node.Air.Avoids(channel) is { } entry ? FormattableString.Invariant($"`avoid` of the manifest keeps it free, line {entry.Place.From.Line}") : null;
    }

    // To 10 kHz, away from zero: an excess is never shown as none.
    private static string RoundedUp(Frequency excess) => new Frequency((excess.Hertz + 9_999) / 10_000 * 10_000).InMegahertz();
}
