using System.Collections.Immutable;
using RadioLint.Hardware;
using RadioLint.Hardware.Keys;
using RadioLint.Manifest;
using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>The keys of the file of neighbours' channel plans.</summary>
internal static class NeighbourPlanKeys
{
    private static readonly Key<int> ExceptionChannel = Figure.Plain("channel", DataScalars.Whole, "channel");
    private static readonly Key<Frequency> ExceptionCentre = Figure.Plain("centre", Quantities.Frequency, "centre");
    private static readonly Key<Frequency> ExceptionWidth = Figure.Plain("width", Quantities.Frequency, "width on air");

    private static readonly MapShape<WifiOffRaster> ExceptionEntry = Figure.Entry<WifiOffRaster>(
        "a channel off the raster",
        [ExceptionChannel, ExceptionCentre, ExceptionWidth],
        (s, origin) => new(s.The(ExceptionChannel), s.The(ExceptionCentre), s.The(ExceptionWidth), origin));

    private static readonly Key<Frequency> OneWidth = Figure.Plain("is", Quantities.Frequency, "width on air");
    private static readonly Key<string> OneFor = Figure.Plain("for", Scalars.Text, "what sends so wide");

    private static readonly MapShape<WifiWidth> WidthEntry =
        Figure.Entry<WifiWidth>("a width", [OneWidth, OneFor], (s, origin) => new(s.The(OneWidth), s.The(OneFor), origin));

    private static readonly Key<ChannelRaster> WifiCentre = Centre();
    private static readonly Key<ImmutableArray<WifiOffRaster>> Exceptions = Figure.List("exceptions", ExceptionEntry, "channels off the raster");
    private static readonly Key<ImmutableArray<WifiWidth>> Widths = Figure.List("widths", WidthEntry, "widths on air");
    private static readonly Key<Fact<Frequency>> UsualWidth = Figure.Always("usual-width", Quantities.Frequency, "width unless stated");
    private static readonly Key<Fact<int>> PairDistance = Figure.Always("pair-distance", DataScalars.Whole, "channels between the halves of a pair");

    private static readonly Key<WifiPlan> Wifi = Figure.Plain(
        "wifi",
        new MapShape<WifiPlan>(
            "channels of Wi-Fi",
            [WifiCentre, Exceptions, Widths, UsualWidth, PairDistance],
            s => new(s.The(WifiCentre), s.The(Exceptions), s.The(Widths), s.The(UsualWidth), s.The(PairDistance))),
        "Wi-Fi");

    private static readonly Key<int> Index = Figure.Plain("index", DataScalars.Whole, "index of the standard");
    private static readonly Key<Frequency> AdvertisingCentre = Figure.Plain("centre", Quantities.Frequency, "centre");

    private static readonly MapShape<AdvertisingChannel> AdvertisingEntry = Figure.Entry<AdvertisingChannel>(
        "an advertising channel", [Index, AdvertisingCentre], (s, origin) => new(s.The(Index), s.The(AdvertisingCentre), origin));

    private static readonly Key<ChannelRaster> BluetoothCentre = Centre();
    private static readonly Key<Fact<Frequency>> BluetoothWidth = Figure.Always("width", Quantities.Frequency, "width on air");
    private static readonly Key<ImmutableArray<AdvertisingChannel>> Advertising = Figure.List("advertising", AdvertisingEntry, "advertising channels");

    private static readonly Key<BluetoothLePlan> BluetoothLe = Figure.Plain(
        "bluetooth-le",
        new MapShape<BluetoothLePlan>(
            "channels of Bluetooth LE",
            [BluetoothCentre, BluetoothWidth, Advertising],
            s => new(s.The(BluetoothCentre), s.The(BluetoothWidth), s.The(Advertising))),
        "Bluetooth LE");

    private static readonly Key<ChannelRaster> IeeeCentre = Centre();
    private static readonly Key<Fact<Frequency>> IeeeWidth = Figure.Always("width", Quantities.Frequency, "width on air");

    private static readonly Key<Ieee802154Plan> Ieee802154 = Figure.Plain(
        "ieee-802.15.4",
        new MapShape<Ieee802154Plan>("channels of IEEE 802.15.4", [IeeeCentre, IeeeWidth], s => new(s.The(IeeeCentre), s.The(IeeeWidth))),
        "IEEE 802.15.4");

    public static readonly MapShape<(WifiPlan Wifi, BluetoothLePlan BluetoothLe, Ieee802154Plan Ieee802154)> File = new(
        "the file of neighbours",
        [Wifi, BluetoothLe, Ieee802154, Remark.Key("sources", "documents")],
        s => (s.The(Wifi), s.The(BluetoothLe), s.The(Ieee802154)));

    private static Key<ChannelRaster> Centre()
    {
        var from = Figure.Plain("from", Quantities.Frequency, "where it starts");
        var countsFrom = Figure.Plain("counts-from", DataScalars.Whole, "channel at the start");
        var step = Figure.Plain("step", Quantities.Frequency, "from one channel to the next");
        var first = Figure.Plain("first", DataScalars.Whole, "first channel");
        var last = Figure.Plain("last", DataScalars.Whole, "last channel");
        var shape = Figure.Entry<ChannelRaster>(
            "a channel plan",
            [from, countsFrom, step, first, last],
            (s, origin) => new(s.The(from), s.The(countsFrom), s.The(step), s.The(first), s.The(last), origin));
        return Figure.Plain("centre", shape, "where its channels lie");
    }
}
