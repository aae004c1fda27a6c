using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>A system that the shape of what was heard gives away.</summary>
/// <param name="Share">Of time, as the detector hears it.</param>
internal sealed record HeardSystem(SystemKind Kind, int Channel, Between<Frequency> Occupied, double Share);

/// <summary>Known systems in what one place heard, by the channel tables and by shape alone.</summary>
internal static class SystemsHeard
{
    public static IReadOnlyList<HeardSystem> In(Occupancy heard)
    {
        var found = Wifi(heard);
        var clear = new bool[Sweep.Channels];
        for (var channel = 0; channel < Sweep.Channels; channel++)
            clear[channel] = found.TrueForAll(each => !Covers(each, channel));
        var advertising = Advertising(heard, clear);
        found.AddRange(advertising);
        found.AddRange(Ieee802154(heard, clear));
        return found;
    }

    /// <summary>Half of what Wi-Fi fills at full power, in MHz, a little less than the 8.3 of its carriers.</summary>
    private const int Inner = 7;

    private static bool Covers(HeardSystem system, int channel) =>
        Carrier(channel) is var carrier && carrier >= system.Occupied.Low && carrier <= system.Occupied.High;

    private static Frequency Carrier(int channel) => Frequency.FromMegahertz(2_400 + channel);

    private static int NumberOf(Frequency centre) => (int)((centre.Hertz / 1_000_000) - 2_400);

    /// <summary>
    /// A block about the centre of a channel, 17 to 21 MHz wide, that stands above what lies either side. The highest first, each taken away before the
    /// next is looked for. Two that overlap hide each other's edges, and neither is named: better one too few than one invented.
    /// </summary>
    private static List<HeardSystem> Wifi(Occupancy heard)
    {
        var (left, found) = ((double[])heard.Share.Clone(), new List<HeardSystem>());
        while (found.Count < NeighbourPlans.Wifi.Channels.Last && Highest(left, heard, found) is { } best)
        {
            for (var channel = Math.Max(0, best.Centre - best.Half); channel <= best.Centre + best.Half; channel++)
                left[channel] = Math.Min(left[channel], Math.Max(left[channel] - best.Height, best.Beside));
            found.Add(new(SystemKind.Wifi, best.Channel, NeighbourPlans.Wifi.Occupied(new(best.Channel, null, null, null))!.Value, best.Height));
        }
        return found;
    }

    private static (int Channel, int Centre, int Half, double Height, double Beside)? Highest(double[] left, Occupancy heard, List<HeardSystem> found)
    {
        (int Channel, int Centre, int Half, double Height, double Beside)? best = null;
        for (var number = NeighbourPlans.Wifi.Channels.First; number <= NeighbourPlans.Wifi.Channels.Last; number++)
        {
            if (found.Exists(each => each.Channel == number))
                continue;
            var centre = NumberOf(NeighbourPlans.Wifi.Centre(number)!.Value);
            var inside = left.Skip(Math.Max(0, centre - Inner)).Take((2 * Inner) + 1).OrderBy(each => each).ToList();
            for (var half = Inner + 1; half <= Inner + 3; half++)
            {
                var beside = Math.Max(Lowest(left, centre - half - 3, centre - half - 1), Lowest(left, centre + half + 1, centre + half + 3));
                // The lowest but two: the path tears holes.
                var height = inside[2] - beside;
                if (height > 5 * Error(heard, centre) && inside[inside.Count / 2] - beside < 4 * height && (best is null || height > best.Value.Height))
                    best = (number, centre, half, height, beside);
            }
        }
        return best;
    }

    /// <summary>
    /// The three advertising channels stand out of what is about them, by much the same: a device announces itself on one after the other. One that
    /// something else covers may be missing.
    /// </summary>
    private static List<HeardSystem> Advertising(Occupancy heard, bool[] clear)
    {
        var plan = NeighbourPlans.BluetoothLe;
        var peaks = plan.Advertising.Select(each => (Centre: NumberOf(each.Centre), Height: Peak(heard, clear, NumberOf(each.Centre), 2))).ToList();
        var standing = peaks.Where(each => each.Height > 4 * Error(heard, each.Centre)).ToList();
        if (standing.Count < 2 || peaks.Except(standing).Any(each => !IsHidden(each.Centre)) || standing.Max(each => each.Height) > 4 * standing.Min(each => each.Height))
            return [];
        var share = standing.Min(each => each.Height);
        return [.. plan.Advertising.Select(each => new HeardSystem(SystemKind.BluetoothLeAdvertising, each.Index, plan.Occupied(each), share))];

        bool IsHidden(int centre) =>
            Enumerable.Range(centre - 2, 5).Any(near => !clear[near]) || Math.Max(heard.Share[centre - 2], heard.Share[centre + 2]) > 1.5 * heard.Share[centre];
    }

    /// <summary>Three channels about a centre of the plan that stand out together.</summary>
    private static IEnumerable<HeardSystem> Ieee802154(Occupancy heard, bool[] clear)
    {
        var plan = NeighbourPlans.Ieee802154;
        var announced = NeighbourPlans.BluetoothLe.Advertising.Select(each => NumberOf(each.Centre)).ToList();
        // A side that Wi-Fi fills counts here: next to its edge a slope would pass for a peak.
        var all = Enumerable.Repeat(true, Sweep.Channels).ToArray();
        for (var number = plan.Channels.First; number <= plan.Channels.Last; number++)
        {
            var centre = NumberOf(plan.Channels.Centre(number)!.Value);
            var height = Peak(heard, all, centre, 4);
            var least = Math.Min(Peak(heard, all, centre, 4, -1), Peak(heard, all, centre, 4, 1));
            var floor = heard.Share[centre] - height;
            // Where an advertising channel lies it must be more than the others have.
            var known = announced.Contains(centre) ? 2 * announced.Where(each => each != centre).Max(each => Peak(heard, clear, each, 2)) : 0;
            if (height > Math.Max(known, 6 * Error(heard, centre)) && least > height / 2 && height > (clear[centre] ? floor / 2 : floor))
                yield return new(SystemKind.Ieee802154, number, plan.Occupied(number)!.Value, height);
        }
    }

    /// <summary>
    /// By how much a channel stands above what lies so many MHz either side of a centre, by the higher side. For a centre clear of Wi-Fi a side within
    /// it does not count.
    /// </summary>
    private static double Peak(Occupancy heard, bool[] clear, int centre, int away, int off = 0)
    {
        bool hidesBelow = clear[centre] && !IsClear(-1), hidesAbove = clear[centre] && !IsClear(1);
        double below = Side(-1), above = Side(1);
        return heard.Share[centre + off] - (hidesBelow == hidesAbove ? Math.Max(below, above) : hidesBelow ? above : below);

        bool IsClear(int towards) => centre + (towards * away) is < 0 or >= Sweep.Channels || clear[centre + (towards * away)];

        double Side(int towards)
        {
            var near = centre + (towards * away);
            if (near is < 0 or >= Sweep.Channels)
                return 0;
            var further = near + towards;
            return further is < 0 or >= Sweep.Channels || clear[near] != clear[further] ? heard.Share[near] : Math.Min(heard.Share[near], heard.Share[further]);
        }
    }

    /// <summary>Of a share whose samples are independent: channels that one sender fills rise and fall together, so their differences are no worse.</summary>
    private static double Error(Occupancy heard, int channel) =>
        heard.Samples(channel) == 0 ? 1 : Math.Sqrt(Math.Max(heard.Share[channel] * (1 - heard.Share[channel]), 1.0 / heard.Samples(channel)) / heard.Samples(channel));

    private static double Lowest(double[] values, int from, int to)
    {
        var lowest = double.PositiveInfinity;
        for (var i = Math.Max(0, from); i <= Math.Min(values.Length - 1, to); i++)
            lowest = Math.Min(lowest, values[i]);
        return double.IsPositiveInfinity(lowest) ? 0 : lowest;
    }
}
