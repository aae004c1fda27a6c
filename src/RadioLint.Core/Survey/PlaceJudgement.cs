using System.Collections.Immutable;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>The channels as one place sees them.</summary>
internal sealed class PlaceJudgement
{
    private readonly IReadOnlyList<Reception> receptions;
    private readonly IReadOnlyList<double[]> harms;
    private readonly List<SystemInBand> unheard;
    private readonly List<NetworkOnAir> others;

    public PlaceJudgement(Network network, BandObservation observed, ImmutableArray<SystemInBand> declared)
    {
        Heard = new(observed);
        Systems = SystemsHeard.In(Heard);
        receptions = Reception.At(network, observed.Place);
        harms = [.. receptions.Select(each => each.Harms(Heard.IsNarrow))];
        others = [.. network.Neighbours.Networks.Select(each => network.Nodes.FirstOrDefault(node => node.Part is not null) is { } node ? OpenChannels.OnAir(node, each.Value) : null).OfType<NetworkOnAir>()];
        unheard = [.. declared.Where(each => !Systems.Any(one => one.IsOf(each)))];
    }

    public Occupancy Heard { get; }

    /// <summary>Known by their shape.</summary>
    public IReadOnlyList<HeardSystem> Systems { get; }

    /// <summary>The share heard over all that a packet fills, of the widest that is received here, and its 95 % interval.</summary>
    public (double Share, double Low, double High) Busy(int channel)
    {
        var filled = receptions.OrderByDescending(WidthOf).First().Filled(Heard.IsNarrow)
            .Where(each => channel + each.Away is >= 0 and < Sweep.Channels && Heard.Samples(channel + each.Away) > 0).ToList();
        var (weights, total, inverse) = (new Weights(), filled.Sum(each => each.Share), 0.0);
        foreach (var (away, share) in filled)
        {
            weights.Alone[channel + away] = share / total;
            inverse += share / total * (share / total) / Heard.Samples(channel + away);
        }
        var estimate = Heard.Of(weights);
        var (low, high) = Confidence.Interval(estimate, inverse > 0 ? 1 / inverse : 0);
        return (estimate.Value, low, high);
    }

    /// <summary>The share of time in which a packet would be ruined, for the receiver that suffers most.</summary>
    public double Cost(int channel) => Enumerable.Range(0, receptions.Count).Max(i => CostFor(i, channel) + Beside(receptions[i], harms[i][0], channel));

    /// <summary>By how much more of the time the second of two channels is ruined than the first, by what was heard.</summary>
    public Estimate Difference(int one, int other)
    {
        var worst = Enumerable.Range(0, receptions.Count).OrderByDescending(i => CostFor(i, other)).First();
        var (weights, less) = (Reception.Cost(other, Heard, harms[worst]), Reception.Cost(one, Heard, harms[worst]));
        for (var channel = 0; channel < Sweep.Channels; channel++)
        {
            weights.Alone[channel] -= less.Alone[channel];
            weights.Together[channel] -= less.Together[channel];
        }
        return Heard.Of(weights);
    }

    private double CostFor(int reception, int channel) => Heard.Value(Reception.Cost(channel, Heard, harms[reception]));

    /// <summary>
    /// What no sample on the channel shows: skirts of Wi-Fi below the detector's level, and systems that the manifest names but that were not
    /// recognised, networks of this kind nearer than the good spacing among them. Those count for as much as the survey cannot exclude: the upper end
    /// of the interval.
    /// </summary>
    private double Beside(Reception reception, double harm, int channel)
    {
        var carrier = reception.Part.Channel.Carrier(channel);
        var filled = Emission.Around(carrier, WidthOf(reception), default);
        var sum = 0.0;
        foreach (var wifi in Systems.Where(each => each.Kind is SystemKind.Wifi && NeighbourPlans.Overlap(filled, each.Occupied) is null))
            sum += wifi.Share * reception.HarmOfSkirt(WifiSkirt.Down(wifi.Occupied, carrier));
        var (share, _, most) = unheard.Count + others.Count > 0 ? Busy(channel) : default;
        var own = new NetworkOnAir(carrier, reception.Rate, ImmutableArray<AddressOnAir>.Empty);
        sum += (most - share) * harm * others.Count(each => Coexistence.Distance(own, each) < Coexistence.Needed(own, each, Coexistence.GoodSpacing));
        foreach (var system in unheard)
        {
            if (NeighbourPlans.Overlap(filled, system.Occupied) is not null)
                sum += (most - share) * harm;
            else if (system.Kind is SystemKind.Wifi)
                sum += (most - share) * reception.HarmOfSkirt(WifiSkirt.Down(system.Occupied, carrier));
        }
        return sum;
    }

    private static Frequency WidthOf(Reception reception) => reception.Part.Rate(reception.Rate)!.Width.Value;
}
