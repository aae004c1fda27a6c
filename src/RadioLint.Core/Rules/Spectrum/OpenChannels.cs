using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Rules.Spectrum;

/// <summary>Channels that may be offered to a node: none that another rule of this module would find fault with.</summary>
internal static class OpenChannels
{
    // REG-20 of the worked examples: at 2 Mbps the skirt is low enough on channel 80, 3.5 MHz from 2483.5 MHz, and too high on 82.
    private static readonly Frequency Guard = new(3_500_000);

    /// <summary>
    /// Inside the region's band and, where it matters, clear of a protected band above it; rising. Where the part lacks the rate, or
    /// none is chosen, those of its widest signal.
    /// </summary>
    public static ImmutableArray<int> For(Network network, Node node, DataRate? wanted)
    {
        if (node.Part is not { } part)
            return ImmutableArray<int>.Empty;
        var rate = wanted is { } asked && part.Rate(asked) is not null ? asked : part.Rates[part.Rates.Length - 1].Rate;
        return ImmutableArray.CreateRange(
            part.ChannelsInside(network.Band.Band, rate).Where(channel => !IsTooClose(network, node, rate, part.Channel.Carrier(channel))));
    }

    /// <summary>The nearest of them, the lower of two; null when there is none.</summary>
    public static int? Nearest(IEnumerable<int> channels, int number) => channels.OrderBy(one => Math.Abs(one - number)).Cast<int?>().FirstOrDefault();

    /// <summary>True where a signal with a wide or an amplified skirt stands less than the guard from a protected band.</summary>
    public static bool IsTooClose(Network network, Node node, DataRate rate, Frequency carrier) =>
        network.Band.ProtectedAbove is { } edge && (rate is DataRate.Mbps2 || node.Radio.FrontEnd is not null) && carrier + Guard > edge;
}
