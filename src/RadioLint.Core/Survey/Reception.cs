using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>A receiver as a survey must judge for it: what it lets in, and what it is to hear.</summary>
/// <param name="Detector">Level from which the survey hears a signal, at the antenna socket.</param>
/// <param name="Planned">The weakest that arrives there by the link budget; null when facts are missing.</param>
internal sealed record Reception(RadioPart Part, DataRate Rate, PowerLevel Detector, PowerLevel? Planned)
{
    // Farther off a receiver rejects all it can, but for twice the crystal's frequency.
    private const int Reach = 40;

    /// <summary>
    /// How many dB louder a signal is a tenth as frequent: senders spread evenly over an area are as many as the square of the distance, and levels
    /// fall by 30 dB a decade of it, between free space and the inside of a building (ITU-R P.1238; derived).
    /// </summary>
    private const double PerTenth = 15;

    /// <summary>Those who listen at a place: the node of that name, or all whose radio is known where none has it.</summary>
    public static IReadOnlyList<Reception> At(Network network, string place)
    {
        var named = network.Nodes.Where(node => node.Part is not null && string.Equals(node.Name, place, StringComparison.Ordinal)).ToList();
        var all = named.Count > 0 ? named : network.DistinctNodes.Where(node => node.Part is not null);
        return [.. all.Select(node => Of(network, node)).Distinct()];
    }

    /// <summary>True when packets or acknowledgements come to the node.</summary>
    public static bool Listens(Network network, Node node) =>
        network.Hops.Any(hop => hop.Receiver == node || (hop.Sender == node && hop.IsAcknowledged && !hop.Link.IsBroadcast));

    /// <summary>
    /// Of the spectrum that a packet fills, the share in each channel of 1 MHz, by distance from its own; the channel alone where the receiver's own
    /// detector listened, whose filter is as wide as a packet.
    /// </summary>
    public IEnumerable<(int Away, double Share)> Filled(bool narrow)
    {
        if (!narrow)
        {
            yield return (0, 1);
            yield break;
        }
        var half = Math.Max(500_000, Part.Rate(Rate)!.Width.Value.Hertz / 2);
        for (var away = -(int)((half + 499_999) / 1_000_000); away <= (half + 499_999) / 1_000_000; away++)
        {
            var (low, high) = (Math.Max(-half, (away * 1_000_000L) - 500_000), Math.Min(half, (away * 1_000_000L) + 500_000));
            if (high > low)
                yield return (away, (double)(high - low) / (2 * half));
        }
    }

    /// <summary>
    /// The chance that a signal which is heard so many channels away, and not on the channel itself, ruins a packet there, by the table of the data
    /// sheet. Where the receiver's own detector listened it had the receiver's filter before it: what it does not hear on the channel is harmless
    /// unless the link is weak, and then counts what gets through to such a link and not to the detector.
    /// </summary>
    public double Harm(int away, bool narrow)
    {
        var rejected = Needed(0) - Needed(away);
        return away == 0 || narrow ? Above(rejected + Spare) : Math.Max(0, Above(rejected + Spare) - Above(rejected));
    }

    /// <summary>The chance that the skirt of a signal which is heard elsewhere, so far down on the channel, ruins a packet and is not heard there.</summary>
    public double HarmOfSkirt(Gain down) => Math.Max(0, Above(down.Centi + Spare) - Above(down.Centi));

    /// <summary>
    /// How far above the detector's level a signal on the channel must stand to ruin a packet, in hundredths of a dB; negative in the blind zone. Where
    /// no budget is known, for a link with the usual 20 dB above the sensitivity (common practice).
    /// </summary>
    private int Spare => ((Planned ?? Part.Rate(Rate)!.Sensitivity.Value + new Gain(2_000)) - Detector).Centi - Needed(0);

    /// <summary>
    /// What the table asks so far off. A limit holds as far as the next line; what to expect has no steps, so between two lines it is straight in dB (assumed).
    /// </summary>
    private int Needed(int away)
    {
        var at = Frequency.FromMegahertz(Math.Abs(away));
        var rows = Part.Interference.Blocker.Where(each => each.Rate == Rate).OrderBy(each => each.Offset.From).ToList();
        if (rows.Count == 0)
            return 0;
        var inner = rows.LastOrDefault(each => each.Offset.From <= at) ?? rows[0];
        var outer = rows.Find(each => each.Offset.From > at) ?? inner;
        var step = outer.Offset.From.Hertz - inner.Offset.From.Hertz;
        var needed = step == 0 ? inner.Needed.Centi : inner.Needed.Centi + ((outer.Needed.Centi - inner.Needed.Centi) * (at.Hertz - inner.Offset.From.Hertz) / step);
        return (int)needed + (at.Hertz != 0 && at.Hertz % Part.Interference.ClockStep.Value.Hertz == 0 ? Part.Interference.ClockPenalty.Value.Centi : 0);
    }

    /// <summary>
    /// What a channel costs: the share of time in which a packet there would be ruined. Going outward, each channel counts when it is heard and the
    /// one nearer is not: a wide signal counts once, at its worst, and hoppers count for each channel that they visit.
    /// </summary>
    public Weights Cost(int channel, Occupancy heard)
    {
        var weights = new Weights();
        weights.Alone[channel] = Harm(0, heard.IsNarrow);
        for (var away = 1; away <= Reach; away++)
        {
            var harm = Harm(away, heard.IsNarrow);
            if (harm < 1e-4)
                continue;
            if (channel + away < Sweep.Channels)
                Count(channel + away, channel + away);
            if (channel - away >= 0)
                Count(channel - away, channel - away + 1);

            void Count(int there, int pair)
            {
                weights.Alone[there] += harm;
                if (heard.HasPairs(pair))
                    weights.Together[pair] -= harm;
            }
        }
        return weights;
    }

    private static Reception Of(Network network, Node node)
    {
        var part = node.Part!;
        var rate = node.Air.ChosenRate is { } chosen && part.Rate(chosen) is not null ? chosen : part.Rates[part.Rates.Length - 1].Rate;
        return new(part, rate, BlindZones.ThresholdOf(node), BlindZones.WeakestAt(network, node));
    }

    // The share of signals above the detector's level that are so many hundredths of a dB above it.
    private static double Above(double centi) => centi <= 0 ? 1 : Math.Pow(10, -centi / 100 / PerTenth);
}
