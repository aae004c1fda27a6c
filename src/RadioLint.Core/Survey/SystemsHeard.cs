using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>A system that the shape of what was heard gives away.</summary>
/// <param name="Share">Of time, as the detector hears it.</param>
internal sealed record HeardSystem(SystemKind Kind, int Channel, Between<Frequency> Occupied, double Share);

/// <summary>Known systems in what one place heard, by the channel tables and by shape alone.</summary>
internal static class SystemsHeard
{
    /// <summary>Half widths of Wi-Fi as a detector may hear it, in MHz: what is sent at full power, and more of it the louder it is.</summary>
    private static readonly int[] Halves = [8, 9, 10, 12, 15];

    public static IReadOnlyList<HeardSystem> In(Occupancy heard)
    {
        var found = Wifi(heard);
        var clear = new bool[Sweep.Channels];
        for (var channel = 0; channel < Sweep.Channels; channel++)
            clear[channel] = found.TrueForAll(each => !Covers(each, channel));
        var advertising = Advertising(heard, clear);
        found.AddRange(advertising);
        found.AddRange(Ieee802154(heard, clear, advertising));
        return found;
    }

    private static bool Covers(HeardSystem system, int channel) =>
        Carrier(channel) is var carrier && carrier >= system.Occupied.Low && carrier <= system.Occupied.High;

    private static Frequency Carrier(int channel) => Frequency.FromMegahertz(2_400 + channel);

    private static int NumberOf(Frequency centre) => (int)((centre.Hertz / 1_000_000) - 2_400);

    /// <summary>
    /// Twenty MHz wide, heard on channels next to each other within one sweep more often than chance: a packet outlasts the step from one channel to
    /// the next, a hopper does not. The strongest first, each taken away before the next is looked for.
    /// </summary>
    private static List<HeardSystem> Wifi(Occupancy heard)
    {
        var (pairs, errors) = Pairs(heard);
        var found = new List<HeardSystem>();
        while (found.Count < 8 && Best(pairs, errors, found) is { } best)
        {
            for (var channel = best.Centre - best.Half + 1; channel <= best.Centre + best.Half; channel++)
            {
                if (channel is >= 0 and < Sweep.Channels)
                    pairs[channel] -= best.Height;
            }
            var plan = NeighbourPlans.Wifi.Occupied(new(best.Channel, null, null, null))!.Value;
            found.Add(new(SystemKind.Wifi, best.Channel, plan, Lowest(heard.Share, best.Centre - 7, best.Centre + 7)));
        }
        return found;
    }

    private sealed record Candidate(int Channel, int Centre, int Half, double Height, double Gain);

    private static Candidate? Best(double[] pairs, double[] errors, List<HeardSystem> found)
    {
        Candidate? best = null;
        for (var number = NeighbourPlans.Wifi.Channels.First; number <= NeighbourPlans.Wifi.Channels.Last; number++)
        {
            if (found.Exists(each => each.Channel == number))
                continue;
            var centre = NumberOf(NeighbourPlans.Wifi.Centre(number)!.Value);
            foreach (var half in Halves)
            {
                if (Fit(pairs, errors, centre, half) is { } fit && (best is null || fit.Gain > best.Gain))
                    best = new(number, centre, half, fit.Height, fit.Gain);
            }
        }
        return best;
    }

    /// <summary>How well a block about a centre explains what channels share with the one below; null when it is not one.</summary>
    private static (double Height, double Gain)? Fit(double[] pairs, double[] errors, int centre, int half)
    {
        var (first, last) = (Math.Max(1, centre - half + 1), Math.Min(Sweep.Channels - 1, centre + half));
        var height = Lowest(pairs, first, last);
        var (sum, squares) = (0.0, 0.0);
        for (var channel = first; channel <= last; channel++)
        {
            sum += pairs[channel];
            squares += errors[channel] * errors[channel];
        }
        var count = last - first + 1;
        // Five errors of the mean: it is tried for every channel and width.
        if (height <= 0 || sum < 5 * Math.Sqrt(squares) || sum / count > 4 * height)
            return null;
        return Beyond(first - 4, first - 2) < height / 2 && Beyond(last + 2, last + 4) < height / 2 ? (height, (2 * height * sum) - (count * height * height)) : null;

        double Beyond(int from, int to) => Mean(pairs, from, to);
    }

    /// <summary>Of each channel with the one below: how much more often both are heard in a sweep than by chance, and the error of that.</summary>
    private static (double[] More, double[] Errors) Pairs(Occupancy heard)
    {
        var (more, errors) = (new double[Sweep.Channels], new double[Sweep.Channels]);
        for (var channel = 1; channel < Sweep.Channels; channel++)
        {
            if (!heard.HasPairs(channel))
                continue;
            more[channel] = heard.Both[channel] - (heard.Share[channel] * heard.Share[channel - 1]);
            var weights = new Weights();
            weights.Together[channel] = 1;
            weights.Alone[channel] = -heard.Share[channel - 1];
            weights.Alone[channel - 1] = -heard.Share[channel];
            errors[channel] = Math.Sqrt(heard.Of(weights).Variance);
        }
        return (more, errors);
    }

    /// <summary>All three advertising channels stand out of what is about them, by much the same: a device announces itself on one after the other.</summary>
    private static List<HeardSystem> Advertising(Occupancy heard, bool[] clear)
    {
        var plan = NeighbourPlans.BluetoothLe;
        var peaks = plan.Advertising.Select(each => Peak(heard, clear, NumberOf(each.Centre), 2)).ToList();
        if (peaks.Exists(each => each.Height < 3.5 * each.Error || each.Height <= 0) || peaks.Max(each => each.Height) > 4 * peaks.Min(each => each.Height))
            return [];
        return [.. plan.Advertising.Zip(peaks, (each, peak) => new HeardSystem(SystemKind.BluetoothLeAdvertising, each.Index, plan.Occupied(each), peak.Height))];
    }

    /// <summary>Three channels about a centre of the plan that stand out together and within one sweep.</summary>
    private static IEnumerable<HeardSystem> Ieee802154(Occupancy heard, bool[] clear, List<HeardSystem> advertising)
    {
        var plan = NeighbourPlans.Ieee802154;
        var (pairs, errors) = Pairs(heard);
        for (var number = plan.Channels.First; number <= plan.Channels.Last; number++)
        {
            var centre = NumberOf(plan.Channels.Centre(number)!.Value);
            var (middle, below, above) = (Peak(heard, clear, centre, 4), Peak(heard, clear, centre, 4, -1), Peak(heard, clear, centre, 4, 1));
            var known = advertising.Where(each => Covers(each, centre)).Sum(each => 2 * advertising.Min(one => one.Share));
            var least = Math.Min(below.Height, above.Height);
            if (middle.Height - known > 4 * middle.Error && middle.Height > known && least > middle.Height / 3 && least > 3 * Math.Max(below.Error, above.Error)
                && pairs[centre] > 3 * errors[centre] && pairs[centre + 1] > 3 * errors[centre + 1])
            {
                yield return new(SystemKind.Ieee802154, number, plan.Occupied(number)!.Value, middle.Height);
            }
        }
    }

    // By how much a channel stands above what lies a few MHz either side of a centre, by the higher side; a side within Wi-Fi counts only where both are.
    private static (double Height, double Error) Peak(Occupancy heard, bool[] clear, int centre, int away, int off = 0)
    {
        var (low, high) = (Math.Max(0, centre - away), Math.Min(Sweep.Channels - 1, centre + away));
        double below = Mean(heard.Share, low - 1, low), above = Mean(heard.Share, high, high + 1);
        var floor = clear[low] == clear[high] ? Math.Max(below, above) : clear[low] ? below : above;
        var weights = new Weights();
        weights.Alone[centre + off] = 1;
        return (heard.Share[centre + off] - floor, Math.Sqrt(heard.Of(weights).Variance + (floor / Math.Max(1, heard.Samples(centre + off)))));
    }

    private static double Mean(double[] values, int from, int to)
    {
        var (sum, count) = (0.0, 0);
        for (var i = Math.Max(0, from); i <= Math.Min(values.Length - 1, to); i++, count++)
            sum += values[i];
        return count == 0 ? 0 : sum / count;
    }

    // The height that all but a sixth of the channels reach.
    private static double Lowest(double[] values, int from, int to)
    {
        var sorted = values.Skip(Math.Max(0, from)).Take(to - Math.Max(0, from) + 1).OrderBy(each => each).ToList();
        return sorted[sorted.Count / 6];
    }
}
