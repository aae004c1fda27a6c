using System.Collections.Immutable;
using RadioLint.Manifest;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Model;

/// <summary>How fast bits go over the air.</summary>
public enum DataRate
{
    Kbps250,
    Mbps1,
    Mbps2,
}

/// <summary>Spelling and arithmetic of the rates.</summary>
public static class DataRates
{
    public static string InManifest(this DataRate rate) => rate switch
    {
        DataRate.Kbps250 => "250 kbps",
        DataRate.Mbps1 => "1 Mbps",
        _ => "2 Mbps",
    };

    /// <summary>How long one bit lasts.</summary>
    public static Duration BitTime(this DataRate rate) => new(rate switch
    {
        DataRate.Kbps250 => 4_000,
        DataRate.Mbps1 => 1_000,
        _ => 500,
    });
}

/// <summary>The channel number n of 2400 + n MHz as written, or null while it is `open`.</summary>
public readonly record struct ChannelSetting(int? Number);

/// <summary>Channels from one to another, both among them.</summary>
public sealed record ChannelRange(int First, int Last)
{
    public bool Has(int channel) => channel >= First && channel <= Last;

    public override string ToString() => First == Last ? FormattableString.Invariant($"{First}") : FormattableString.Invariant($"{First}..{Last}");
}

/// <summary>The rate, or null while it is `open`.</summary>
public readonly record struct RateSetting(DataRate? Rate);

/// <summary>How a receiver knows a packet's length.</summary>
public enum LengthKind
{
    /// <summary>Each packet says it.</summary>
    Dynamic,

    /// <summary>One fixed number of bytes on all pipes.</summary>
    Fixed,

    /// <summary>Each pipe is as long as its payload.</summary>
    Exact,
}

/// <summary>`dynamic`, `exact` or a fixed number of bytes.</summary>
public readonly record struct LengthMode(LengthKind Kind, int Bytes)
{
    public string InManifest() => Kind switch
    {
        LengthKind.Dynamic => "dynamic",
        LengthKind.Exact => "exact",
        _ => FormattableString.Invariant($"{Bytes} bytes"),
    };
}

/// <summary>Delays to hand out to the senders in turn; empty while `open`, when they are planned.</summary>
public sealed record RetryDelay(ImmutableArray<Stated<Duration>> Delays)
{
    public bool IsOpen => Delays.IsEmpty;
}

/// <summary>A sender's own business: how long it waits before it repeats, and how often.</summary>
public sealed record Retry(Stated<RetryDelay>? Delay, Stated<int>? Limit);

/// <summary>What both ends of a link must agree on, and a sender's retries. A part that did not read is null.</summary>
public sealed record Air(
    Place Place,
    Stated<ChannelSetting>? Channel,
    Stated<RateSetting>? Rate,
    Stated<int>? AddressWidth,
    Stated<int>? Crc,
    Stated<bool>? Acknowledge,
    Stated<LengthMode>? PayloadLength,
    Stated<bool>? NoAcknowledge,
    Retry Retry)
{
    /// <summary>Channels that the user wants kept free.</summary>
    public ImmutableArray<Stated<ChannelRange>> Avoid { get; init; } = ImmutableArray<Stated<ChannelRange>>.Empty;

    /// <summary>The entry of `avoid` that a channel falls under; null when there is none.</summary>
    public Stated<ChannelRange>? Avoids(int channel) => Avoid.FirstOrDefault(each => each.Value.Has(channel));

    /// <summary>The data rate once it is chosen.</summary>
    public DataRate? ChosenRate => Rate?.Value.Rate;

    /// <summary>The channel number once it is chosen.</summary>
    public int? ChosenChannel => Channel?.Value.Number;
}

/// <summary>A Wi-Fi channel in use nearby; a 40 MHz pair names both halves.</summary>
public sealed record WifiNeighbour(int Channel, int? Partner, Frequency? Width, Between<Length>? Distance);

/// <summary>Somebody else's network of this kind.</summary>
public sealed record OtherNetwork(
    Stated<string>? Name, Stated<ChannelSetting>? Channel, Stated<RateSetting>? Rate, Stated<WrittenAddress>? Address, Stated<Between<Length>>? Distance)
{
    /// <summary>Every address that it answers to, where its own manifest is at hand.</summary>
    public ImmutableArray<(Address Address, Place Place)> Listens { get; init; } = ImmutableArray<(Address, Place)>.Empty;
}

/// <summary>Who else uses the band here.</summary>
public sealed record Neighbours(
    ImmutableArray<Stated<WifiNeighbour>> Wifi,
    Stated<bool>? BluetoothLe,
    ImmutableArray<Stated<int>> Ieee802154,
    ImmutableArray<Stated<OtherNetwork>> Networks)
{
    public static readonly Neighbours None =
        new(ImmutableArray<Stated<WifiNeighbour>>.Empty, null, ImmutableArray<Stated<int>>.Empty, ImmutableArray<Stated<OtherNetwork>>.Empty);
}

/// <summary>One survey log that the manifest names.</summary>
public sealed record SurveyFile(
    Stated<string>? File, Stated<string>? Place, Stated<DateTime>? Taken, Stated<Duration>? Dwell, Stated<Duration>? Lasted, Stated<bool>? OwnNodesSilent);
