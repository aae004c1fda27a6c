using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>What speaks for or against a channel, in words, the heaviest first.</summary>
internal static class ChannelReasons
{
    public static ImmutableArray<string> Of(
        int channel, Frequency carrier, Occupancy worst, Share busy, Share lost, Between<Share> interval, ImmutableArray<SystemInBand> systems, Network network, bool severalPlaces)
    {
        var words = ImmutableArray.CreateBuilder<string>();
        var where = severalPlaces ? $" at {worst.Place}" : "";
        words.Add(busy.Millionths == 0
            ? FormattableString.Invariant($"nothing heard{where}; at most {Shown(interval.High)}")
            : FormattableString.Invariant($"heard {Shown(busy)} of the time{where} ({Shown(interval.Low)} to {Shown(interval.High)})"));
        // Half as much again is worth a word, and less than one packet in ten thousand is not.
        if (lost.Millionths > Math.Max(100, 3 * busy.Millionths / 2))
            words.Add(FormattableString.Invariant($"what lies beside it may ruin packets too, {Shown(new(lost.Millionths - busy.Millionths))} of the time"));
        var told = words.Count;
        var width = network.Nodes.FirstOrDefault(node => node.Part is not null) is { Part: { } part, Air.ChosenRate: { } rate } ? part.Rate(rate)?.Width.Value : null;
        var filled = Emission.Around(carrier, width ?? Frequency.FromMegahertz(2), default);
        words.AddRange(systems.Where(each => NeighbourPlans.Overlap(filled, each.Occupied) is not null)
            .Select(each => $"in {BandSystems.Named(each)}, {(each.IsHeard ? "heard here" : "which the manifest names")}"));
        if (words.Count == told && systems.OrderBy(each => Apart(carrier, each.Occupied).Hertz).ThenBy(each => each.Kind).ThenBy(each => each.Channel).FirstOrDefault() is { } next)
            words.Add(FormattableString.Invariant($"{Apart(carrier, next.Occupied)} from {BandSystems.Named(next)}"));
        foreach (var other in network.OtherNetworks)
        {
            if (network.Nodes.FirstOrDefault(node => node.Part is not null) is not { } node || OpenChannels.OnAir(node, other.Value) is not { } air)
                continue;
            var own = new NetworkOnAir(carrier, node.Air.ChosenRate, ImmutableArray<AddressOnAir>.Empty);
            if (Coexistence.Distance(own, air) < Coexistence.Needed(own, air, Coexistence.GoodSpacing))
                words.Add(FormattableString.Invariant($"{Coexistence.Distance(own, air)} from {(other.Value.Name is { } name ? $"network `{name.Value}`" : "another network")}"));
        }
        if (network.Nodes.Any(node => node.Part is { } each && carrier.Hertz % each.CrystalFrequency.Value.Hertz == 0))
            words.Add("a harmonic of the radio's crystal, where receivers may be a little deaf: a hint only");
        return words.ToImmutable();
    }

    /// <summary>Two figures that mean something, and never none of what is some.</summary>
    internal static string Shown(Share share)
    {
        long step = 1;
        while (share.Millionths >= step * 100)
            step *= 10;
        return new Share((share.Millionths + (step / 2)) / step * step).ToString();
    }

    private static Frequency Apart(Frequency carrier, Between<Frequency> used) =>
        carrier < used.Low ? used.Low - carrier : carrier > used.High ? carrier - used.High : default;
}
