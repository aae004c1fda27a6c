using System.Collections.Immutable;
using System.Globalization;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Manifest.Keys;

/// <summary>The keys of `neighbours` and of `survey`.</summary>
public static class NeighbourKeys
{
    private static readonly ScalarShape<WifiNeighbour> WifiShort = Scalars.Parsed(
        "a Wi-Fi channel such as `6`, or a pair such as `6+10`", "^[0-9]{1,2}([+][0-9]{1,2})?$", ParseWifi).OrWhole();

    private static readonly Key<WifiNeighbour> WifiChannel = new("channel", WifiShort, "Wi-Fi channel") { IsRequired = true };
    private static readonly Key<Frequency> WifiWidth = new("width", Quantities.Frequency, "width on air; 20 MHz unless stated");
    private static readonly Key<Between<Length>> WifiDistance = new("distance", Quantities.Lengths, "how far away");

    private static readonly FormsShape<WifiNeighbour> Wifi = new(
        WifiShort,
        new MapShape<WifiNeighbour>(
            "a Wi-Fi neighbour",
            [WifiChannel, WifiWidth, WifiDistance],
            s => (s.Written(WifiChannel)?.Value ?? new(0, null, null, null)) with
            {
                Width = s.Written(WifiWidth)?.Value,
                Distance = s.Written(WifiDistance)?.Value,
            }));

    private static readonly Key<ImmutableArray<Stated<WifiNeighbour>>> WifiKey = new("wifi", new ListShape<WifiNeighbour>(Wifi), "Wi-Fi channels in use");
    private static readonly Key<bool> BluetoothKey = new("bluetooth-le", Scalars.Truth, "Bluetooth LE devices advertise here") { Default = "false" };

    private static readonly Key<ImmutableArray<Stated<int>>> Ieee802154Key =
        new("ieee-802.15.4", new ListShape<int>(Quantities.Count("an IEEE 802.15.4 channel, 11 to 26")), "IEEE 802.15.4 channels in use");

    private static readonly Key<string> OtherName = new("network", Scalars.Text, "what it is called");
    private static readonly Key<ChannelSetting> OtherChannel = new("channel", AirScalars.ChannelNumber, "its channel");
    private static readonly Key<RateSetting> OtherRate = new("rate", AirScalars.RateOrOpen, "its data rate");
    private static readonly Key<WrittenAddress> OtherAddress = new("address", AddressKeys.Shape, "one of its addresses");
    private static readonly Key<Between<Length>> OtherDistance = new("distance", Quantities.Lengths, "how far away");

    private static readonly Key<ImmutableArray<Stated<OtherNetwork>>> NetworksKey = new(
        "networks",
        new ListShape<OtherNetwork>(new MapShape<OtherNetwork>(
            "another network",
            [OtherName, OtherChannel, OtherRate, OtherAddress, OtherDistance],
            s => new(s.Written(OtherName), s.Written(OtherChannel), s.Written(OtherRate), s.Written(OtherAddress), s.Written(OtherDistance)))),
        "other people's networks of this kind");

    public static readonly MapShape<Neighbours> Shape = new(
        "`neighbours`",
        [WifiKey, BluetoothKey, Ieee802154Key, NetworksKey],
        s => new(
            s.Written(WifiKey)?.Value ?? ImmutableArray<Stated<WifiNeighbour>>.Empty,
            s.Written(BluetoothKey),
            s.Written(Ieee802154Key)?.Value ?? ImmutableArray<Stated<int>>.Empty,
            s.Written(NetworksKey)?.Value ?? ImmutableArray<Stated<OtherNetwork>>.Empty));

    private static readonly Key<string> FileKey = new("file", Scalars.Text, "the log") { IsRequired = true };
    private static readonly Key<string> PlaceKey = new("place", Scalars.Text, "where it was taken");
    private static readonly Key<DateTime> TakenKey = new("taken", Scalars.Date, "when it was taken");
    private static readonly Key<Duration> DwellKey = new("dwell", Quantities.Duration, "time on each channel");
    private static readonly Key<Duration> LastedKey = new("lasted", Quantities.Duration, "length of the survey");

    private static readonly Key<bool> OwnNodesKey =
        new("own-nodes", Scalars.Words("a state", ("silent", true), ("running", false)), "whether the network's own nodes were silent");

    private static readonly MapShape<SurveyFile> SurveyMap = new(
        "a survey",
        [FileKey, PlaceKey, TakenKey, DwellKey, LastedKey, OwnNodesKey],
        s => new(s.Written(FileKey), s.Written(PlaceKey), s.Written(TakenKey), s.Written(DwellKey), s.Written(LastedKey), s.Written(OwnNodesKey)));

    private static readonly FormsShape<SurveyFile> SurveyItem =
        new(Scalars.Text.To(file => new SurveyFile(new(file, default), null, null, null, null, null)), SurveyMap);

    public static readonly ListShape<SurveyFile> SurveyShape = new(SurveyItem);

    private static WifiNeighbour? ParseWifi(string text)
    {
        var halves = text.Split('+');
        if (halves.Length > 2 || !Number(halves[0], out var channel))
            return null;
        if (halves.Length == 1)
            return new(channel, null, null, null);
        return Number(halves[1], out var partner) ? new(channel, partner, null, null) : null;
    }

    private static bool Number(string text, out int number) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out number) && number is >= 1 and <= 14;
}
