using RadioLint.Survey;
using RadioLint.Tests.Support;
using RadioLint.Units;

namespace RadioLint.Tests.Survey;

/// <summary>How much goes on at a site.</summary>
public enum Density
{
    Sparse,
    Middle,
    Dense,
}

/// <summary>
/// A site whose truth is known because it is made: senders in time and dBm, and a listener who steps through the channels and tells counts, all
/// that the ranking sees. Invented, but for the channel tables: packet lengths, shares of time and levels are what such systems commonly have (values from
/// memory). Its own physics are kept apart from those of the ranking: a detector that hears the strongest from -64 dBm, a receiver with a filter of its own.
/// </summary>
internal sealed class SyntheticSite
{
    private const double Hears = -64;

    // What a receiver's filter takes away, by MHz off the channel, and how far a packet must stand above what is left.
    private static double[] Filter(int kilobits) => kilobits switch
    {
        250 => [0, 18, 40, 46, 48, 50],
        1000 => [0, 3, 26, 36, 42, 45],
        _ => [0, 1, 6, 15, 24, 27, 30, 34, 38, 42],
    };

    private const double Ahead = 10;

    private readonly List<Sender> senders = [];

    // By sender and state, what the detector makes of it in each channel.
    private List<List<bool[]>> heard = [];
    private readonly Random dice;

    public SyntheticSite(int seed, Density density)
    {
        dice = new(seed);
        var (wifis, hoppers, announcers, others) = density switch
        {
            Density.Sparse => (dice.Next(1, 3), dice.Next(1, 3), dice.Next(2, 6), dice.Next(1, 4)),
            Density.Middle => (dice.Next(2, 5), dice.Next(2, 4), dice.Next(4, 10), dice.Next(2, 6)),
            _ => (dice.Next(5, 9), dice.Next(3, 6), dice.Next(8, 20), dice.Next(4, 10)),
        };
        for (var i = 0; i < wifis; i++)
            Wifi(density);
        for (var i = 0; i < hoppers; i++)
            senders.Add(Headset());
        for (var i = 0; i < announcers; i++)
            senders.Add(new Announcer(dice, Advertising, Arriving(0, 8), 0.05 + (0.3 * dice.NextDouble())));
        for (var i = 0; i < others; i++)
            Other();
        if (density is Density.Dense || dice.Next(4) == 0)
            senders.Add(new Oven(dice, Arriving(5, 12), dice.Next(2) == 0 ? 50 : 60, 8, 20));
    }

    private SyntheticSite(int seed) => dice = new(seed);

    /// <summary>Hoppers only: nothing that any plan of channels knows.</summary>
    public static SyntheticSite Hopping(int seed)
    {
        var site = new SyntheticSite(seed);
        for (var i = site.dice.Next(1, 5); i > 0; i--)
            site.senders.Add(site.Headset());
        return site;
    }

    /// <summary>A pair of Wi-Fi channels, well heard, among hoppers; at every other site with beacons on its first half.</summary>
    public static SyntheticSite WithPair(int seed)
    {
        var site = Hopping(seed);
        var dice = site.dice;
        var lower = dice.Next(1, 10);
        var (first, level) = (dice.Next(2) == 0 ? lower : lower + 4, -42 + (10 * dice.NextDouble()));
        var middle = (Centre("802.11 OFDM 20 MHz", lower) + Centre("802.11 OFDM 20 MHz", lower + 4)) / 2;
        site.senders.Add(BurstSender.WifiPair(dice, middle, Centre("802.11 OFDM 20 MHz", first), level, level - (4 * dice.NextDouble()), 0.15 + (0.3 * dice.NextDouble()), seed % 2 == 0 ? 0 : 0.1 + (0.2 * dice.NextDouble())));
        site.Pair = (lower, lower + 4);
        return site;
    }

    /// <summary>Two Wi-Fi cells on channels that abut: no pair.</summary>
    public static SyntheticSite WithTwoThatAbut(int seed)
    {
        var site = Hopping(seed);
        var dice = site.dice;
        var lower = dice.Next(1, 10);
        foreach (var channel in new[] { lower, lower + 4 })
        {
            var level = -48 + (8 * dice.NextDouble());
            site.senders.Add(BurstSender.Wifi(dice, Centre("802.11 OFDM 20 MHz", channel), level, level - (4 * dice.NextDouble()), 0.05 + (0.3 * dice.NextDouble()), 2));
        }
        return site;
    }

    /// <summary>Systems of each kind that a plan of channels knows, well heard, among hoppers: in the open some MHz apart, else wherever they fall.</summary>
    public static SyntheticSite WithSystems(int seed, bool apart)
    {
        var site = Hopping(seed);
        var dice = site.dice;
        foreach (var channel in new[] { 1, 6, 11 }.Where(_ => dice.Next(2) == 0))
        {
            var level = -45 + (10 * dice.NextDouble());
            var cell = BurstSender.Wifi(dice, Centre("802.11 OFDM 20 MHz", channel), level, level - (4 * dice.NextDouble()), 0.05 + (0.3 * dice.NextDouble()), 2);
            site.senders.Add(cell);
            site.Wifis.Add((channel, level - 12.3, cell.States.Sum(each => each.Share)));
        }
        for (var i = dice.Next(3); i > 0; i--)
        {
            var channel = dice.Next(11, 26);
            var centre = Centre("IEEE 802.15.4 O-QPSK", channel);
            if (site.Ieee802154s.Exists(each => each.Channel == channel) || (apart && site.Wifis.Exists(each => Math.Abs(Centre("802.11 OFDM 20 MHz", each.Channel) - centre) < 18)))
                continue;
            var sender = BurstSender.Ieee802154(dice, centre, -58 + (8 * dice.NextDouble()), 0.1 + (0.2 * dice.NextDouble()));
            site.senders.Add(sender);
            site.Ieee802154s.Add((channel, -55, sender.States[0].Share));
        }
        if (dice.Next(2) == 0)
        {
            for (var i = 0; i < 8; i++)
                site.senders.Add(new Announcer(dice, Advertising, -58 + (6 * dice.NextDouble()), 0.05 + (0.1 * dice.NextDouble())));
        }
        return site;
    }

    /// <summary>Wi-Fi channels that have cells, with the loudest level in a MHz.</summary>
    public List<(int Channel, double Level, double Share)> Wifis { get; } = [];

    public (int Lower, int Upper)? Pair { get; private set; }

    public List<(int Channel, double Level, double Share)> Ieee802154s { get; } = [];

    public IEnumerable<Sender> Announcers => senders.OfType<Announcer>();

    /// <summary>The listener's log: so many passes over the band, one sample a channel each.</summary>
    public BandObservation Survey(string place, int sweeps, int kilobits, bool narrow = false)
    {
        heard = [.. senders.Select(sender => sender.States.Select(state => Enumerable.Range(0, Sender.Megahertz)
            .Select(at => (narrow ? state.Levels[at] : Enters(state.Levels, at, Filter(kilobits))) > Hears).ToArray()).ToList())];
        var audible = Enumerable.Range(0, Sweep.Channels).Select(channel => Enumerable.Range(0, senders.Count).Where(i => heard[i].Exists(state => state[channel])).ToArray()).ToArray();
        var observation = new BandObservation(place);
        var second = 0.0;
        // The radio's own survey tells of several rounds at once, an instrument of each.
        var rounds = narrow ? 1 : 20;
        for (var number = 0; number < sweeps / rounds; number++)
        {
            var sweep = new Sweep { Number = number, At = new((long)(second * 1e9)), Width = narrow ? Frequency.FromMegahertz(1) : null };
            for (var round = 0; round < rounds; round++)
            {
                for (var channel = 0; channel < Sweep.Channels; channel++, second += 0.00021)
                {
                    sweep.Samples[channel]++;
                    // A sender that is never heard there need not be asked: it does not mind when it is asked next.
                    if (audible[channel].Any(i => senders[i].StateAt(second) is >= 0 and var state && heard[i][state][channel]))
                        sweep.Heard[channel]++;
                }
                second += 0.03 + (0.03 * dice.NextDouble());
            }
            observation.Add(sweep);
        }
        return observation;
    }

    /// <summary>
    /// The share of all time in which what a packet fills is heard. The radio's own detector listens to all of it; of an instrument's samples of 1 MHz
    /// each, half of a packet of 2 Mbps is in the middle one of three.
    /// </summary>
    public double Heard(int channel, int kilobits, bool narrow) =>
        narrow && kilobits > 1_000 ? (Heard(channel - 1) / 4) + (Heard(channel) / 2) + (Heard(channel + 1) / 4) : Heard(channel);

    // Senders know nothing of each other.
    private double Heard(int channel) =>
        1 - senders.Select((sender, i) => 1 - sender.States.Where((_, state) => heard[i][state][channel]).Sum(state => state.Share)).Aggregate(1.0, (quiet, one) => quiet * one);

    /// <summary>The share of all time in which a packet that arrives at a level is lost on a channel.</summary>
    public double Lost(int channel, double level, int kilobits) => 1 - senders.Aggregate(
        1.0, (kept, sender) => kept * (1 - sender.States.Where(state => Enters(state.Levels, channel, Filter(kilobits)) > level - Ahead).Sum(state => state.Share)));

    // The strongest MHz behind the filter.
    private static double Enters(double[] levels, int channel, double[] filter)
    {
        var strongest = double.NegativeInfinity;
        for (var at = 0; at < levels.Length; at++)
            strongest = Math.Max(strongest, levels[at] - filter[Math.Min(filter.Length - 1, Math.Abs(at - channel))]);
        return strongest;
    }

    private static int[] Advertising => [2, 26, 80];

    private static int Centre(string system, int channel) =>
        (int)Published.Rows("coexist-channels.csv").First(row => row["system"] == system && row["channel"] == FormattableString.Invariant($"{channel}")).Number("centre_mhz") - 2400;

    // Evenly over an area of 3 to 25 m about the listener; 30 dB a decade, 4 dB of shadows.
    private double Arriving(double sent, double far) =>
        sent - 40 - (30 * Math.Log10(Math.Sqrt(4 + (far * far * dice.NextDouble())))) + (4 * (dice.NextDouble() + dice.NextDouble() + dice.NextDouble() - 1.5));

    private void Wifi(Density density)
    {
        var channel = density is Density.Dense && dice.Next(3) == 0 ? dice.Next(1, 14) : 1 + (5 * dice.Next(3));
        double accessPoint = Arriving(18, 25), client = Arriving(15, 20);
        var cell = BurstSender.Wifi(dice, Centre("802.11 OFDM 20 MHz", channel), accessPoint, client, 0.05 + (0.45 * dice.NextDouble()), 1 + (3 * dice.NextDouble()));
        senders.Add(cell);
        Wifis.Add((channel, Math.Max(accessPoint, client) - 12.3, cell.States.Sum(each => each.Share)));
    }

    private Hopper Headset()
    {
        // Some keep clear of what they found busy; remote controls use the band up to its edges.
        var (low, high) = dice.Next(2) == 0 ? (2, 80) : (0, 83);
        var from = dice.Next(3) == 0 ? dice.Next(low, 40) : low;
        var to = dice.Next(3) == 0 ? Math.Max(from + 25, dice.Next(40, high + 1)) : high;
        var channels = Enumerable.Range(from, Math.Min(high, to) - from + 1).ToList();
        return new(dice, channels, 1, Arriving(4, 6), 0.000625, 0.2 + (0.5 * dice.NextDouble()), 4, 2 + (4 * dice.NextDouble()));
    }

    private void Other()
    {
        if (dice.Next(2) == 0)
        {
            var channel = dice.Next(11, 27);
            var level = Arriving(5, 12);
            var sender = BurstSender.Ieee802154(dice, Centre("IEEE 802.15.4 O-QPSK", channel), level, 0.05 + (0.2 * dice.NextDouble()));
            senders.Add(sender);
            Ieee802154s.Add((channel, level - 3, sender.States[0].Share));
        }
        else
        {
            // Where nobody else is, others of this kind are.
            senders.Add(BurstSender.Narrow(dice, dice.Next(3) == 0 ? dice.Next(76, 84) : dice.Next(0, 84), Arriving(0, 12), 0.02 + (0.2 * dice.NextDouble())));
        }
    }
}
