using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>Where the channels of a plan lie: the centre of channel c is base + (c - counts from) x step.</summary>
public sealed record ChannelRaster(Frequency Base, int CountsFrom, Frequency Step, int First, int Last, Origin Origin)
{
    /// <summary>The centre of a channel; null when the plan has no such channel.</summary>
    public Frequency? Centre(int channel) =>
        channel >= First && channel <= Last ? new(Base.Hertz + ((channel - CountsFrom) * Step.Hertz)) : null;
}

/// <summary>A Wi-Fi channel off the raster.</summary>
public sealed record WifiOffRaster(int Channel, Frequency Centre, Frequency Width, Origin Origin);

/// <summary>A width on air and what sends so wide.</summary>
public sealed record WifiWidth(Frequency Width, string For, Origin Origin);

/// <summary>The channels of Wi-Fi in this band.</summary>
/// <param name="PairDistance">Channels between the two halves of a pair of 40 MHz.</param>
public sealed record WifiPlan(
    ChannelRaster Channels, ImmutableArray<WifiOffRaster> Exceptions, ImmutableArray<WifiWidth> Widths, Fact<Frequency> UsualWidth, Fact<int> PairDistance)
{
    /// <summary>The centre of a channel; null when there is no such channel.</summary>
    public Frequency? Centre(int channel) => Exception(channel)?.Centre ?? Channels.Centre(channel);

    /// <summary>True for a neighbour of 40 MHz: a pair, or one that states the width of a pair.</summary>
    public bool IsWide(WifiNeighbour neighbour) => neighbour.Partner is not null || neighbour.Width >= UsualWidth.Value + UsualWidth.Value;

    /// <summary>
    /// What a neighbour fills: its stated width, else that of its channel (two usual widths for a pair), about its centre
    /// (the mean of a pair's); both pairs that it may belong to where it states the width of a pair alone. Null when there is no such channel.
    /// </summary>
    public Between<Frequency>? Occupied(WifiNeighbour neighbour)
    {
        if (Centre(neighbour.Channel) is not { } centre)
            return null;
        if (neighbour.Partner is null && neighbour.Width == UsualWidth.Value + UsualWidth.Value)
            return EitherPair(neighbour);
        if (neighbour.Partner is not { } second)
            return Emission.Around(centre, neighbour.Width ?? Exception(neighbour.Channel)?.Width ?? UsualWidth.Value, default);
        if (Centre(second) is not { } other)
            return null;
        return Emission.Around(new((centre.Hertz + other.Hertz) / 2), neighbour.Width ?? UsualWidth.Value + UsualWidth.Value, default);
    }

    private Between<Frequency>? EitherPair(WifiNeighbour alone)
    {
        var (lower, upper) = (With(-PairDistance.Value), With(PairDistance.Value));
        return lower is { } low && upper is { } high ? new(low.Low, high.High) : lower ?? upper;

        Between<Frequency>? With(int away) =>
            Channels.Centre(alone.Channel + away) is null ? null : Occupied(alone with { Partner = alone.Channel + away });
    }

    private WifiOffRaster? Exception(int channel) => Exceptions.FirstOrDefault(each => each.Channel == channel);
}

/// <summary>A channel on which Bluetooth LE devices announce themselves.</summary>
/// <param name="Index">As the standard counts: 37, 38, 39.</param>
public sealed record AdvertisingChannel(int Index, Frequency Centre, Origin Origin);

/// <summary>The channels of Bluetooth LE.</summary>
public sealed record BluetoothLePlan(ChannelRaster Channels, Fact<Frequency> Width, ImmutableArray<AdvertisingChannel> Advertising)
{
    /// <summary>What an advertising channel fills.</summary>
    public Between<Frequency> Occupied(AdvertisingChannel channel) => Emission.Around(channel.Centre, Width.Value, default);
}

/// <summary>The channels of IEEE 802.15.4 in this band.</summary>
public sealed record Ieee802154Plan(ChannelRaster Channels, Fact<Frequency> Width)
{
    /// <summary>What a channel fills; null when there is no such channel.</summary>
    public Between<Frequency>? Occupied(int channel) => Channels.Centre(channel) is { } centre ? Emission.Around(centre, Width.Value, default) : null;
}

/// <summary>The channel plans of other users of the band. Being outside a rectangle is not silence.</summary>
public static class NeighbourPlans
{
    private static readonly Lazy<(WifiPlan Wifi, BluetoothLePlan BluetoothLe, Ieee802154Plan Ieee802154)> Table =
        new(() => DataFile.Read("Spectrum/neighbours.yaml", NeighbourPlanKeys.File));

    public static WifiPlan Wifi => Table.Value.Wifi;
    public static BluetoothLePlan BluetoothLe => Table.Value.BluetoothLe;
    public static Ieee802154Plan Ieee802154 => Table.Value.Ieee802154;

    /// <summary>How much spectrum two stretches share; null when they share none: touching edges do not overlap.</summary>
    public static Frequency? Overlap(Between<Frequency> a, Between<Frequency> b)
    {
        var low = a.Low > b.Low ? a.Low : b.Low;
        var high = a.High < b.High ? a.High : b.High;
        return low < high ? high - low : null;
    }
}
