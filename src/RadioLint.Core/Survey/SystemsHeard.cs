using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Survey;

/// <summary>A system that the shape of what was heard gives away.</summary>
/// <param name="Partner">The upper half of a pair of Wi-Fi channels; null for one alone.</param>
/// <param name="Share">Of time, as the detector hears it.</param>
internal sealed record HeardSystem(SystemKind Kind, int Channel, int? Partner, Between<Frequency> Occupied, double Share)
{
    /// <summary>True for what the manifest names as it was heard, or in part.</summary>
    public bool IsOf(SystemInBand declared) => Kind == declared.Kind && (Partner is null
        ? Channel == declared.Channel || Channel == declared.Partner
        : Channel == declared.Channel && Partner == declared.Partner);
}

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

    // Half of what its carriers fill at full power is 8.3 MHz, that of a pair 18.3 MHz (IEEE 802.11, 20 and 40 MHz): up to a little less the block is even.
    private static readonly List<WifiShape> Shapes =
    [
        .. from number in Enumerable.Range(NeighbourPlans.Wifi.Channels.First, NeighbourPlans.Wifi.Channels.Last)
           let centre = NeighbourPlans.Wifi.Centre(number)
           where centre is not null
           select new WifiShape(number, null, NumberOf(centre.Value), 7),
        .. from number in Enumerable.Range(NeighbourPlans.Wifi.Channels.First, NeighbourPlans.Wifi.Channels.Last)
           let partner = number + NeighbourPlans.Wifi.PairDistance.Value
           where NeighbourPlans.Wifi.Channels.Centre(partner) is not null
           select new WifiShape(number, partner, (NumberOf(NeighbourPlans.Wifi.Centre(number)!.Value) + NumberOf(NeighbourPlans.Wifi.Centre(partner)!.Value)) / 2, 17),
    ];

    /// <summary>Where a Wi-Fi channel, or a pair of them, would stand.</summary>
    /// <param name="Inner">MHz to either side of its centre that it fills evenly.</param>
    private sealed record WifiShape(int Channel, int? Partner, int Centre, int Inner);

    private static bool Covers(HeardSystem system, int channel) =>
        Carrier(channel) is var carrier && carrier >= system.Occupied.Low && carrier <= system.Occupied.High;

    private static Frequency Carrier(int channel) => Frequency.FromMegahertz(2_400 + channel);

    private static int NumberOf(Frequency centre) => (int)((centre.Hertz / 1_000_000) - 2_400);

    /// <summary>
    /// A block about the centre of a channel, 17 to 21 MHz wide, or of a pair, 37 to 41 MHz, that stands above what lies either side. The highest first, each taken away
    /// before the next is looked for: so the half of a pair that also sends alone is found before the pair. Two that overlap hide each other's edges, and neither is named:
    /// better one too few than one invented.
    /// </summary>
    private static List<HeardSystem> Wifi(Occupancy heard)
    {
        var (left, found, taken) = ((double[])heard.Share.Clone(), new List<HeardSystem>(), new HashSet<WifiShape>());
        while (Highest(left, heard, taken) is var (best, half, height, beside))
        {
            taken.Add(best);
            for (var channel = Math.Max(0, best.Centre - half); channel <= best.Centre + half; channel++)
                left[channel] = Math.Min(left[channel], Math.Max(left[channel] - height, beside));
            found.Add(new(SystemKind.Wifi, best.Channel, best.Partner, NeighbourPlans.Wifi.Occupied(new(best.Channel, best.Partner, null, null))!.Value, height));
        }
        return found;
    }

    private static (WifiShape Shape, int Half, double Height, double Beside)? Highest(double[] left, Occupancy heard, HashSet<WifiShape> taken)
    {
        (WifiShape Shape, int Half, double Height, double Beside)? best = null;
        foreach (var shape in Shapes.Where(shape => !taken.Contains(shape)))
        {
            var (centre, inner) = (shape.Centre, shape.Inner);
            var inside = left.Skip(Math.Max(0, centre - inner)).Take((2 * inner) + 1).OrderBy(each => each).ToList();
            // A pair sends on both halves at once, two that abut each by themselves; and a hopper over as many channels is on each for less time than one of them is of all.
            var (evenly, least) = shape.Partner is null ? (4, 0) : (2.0, 1.0 / ((2 * inner) + 1));
            if (shape.Partner is { } partner && (taken.Count(one => one.Channel == shape.Channel || one.Channel == partner) > 1 || !AreAlike(left, heard, centre, inner)))
                continue;
            for (var half = inner + 1; half <= inner + 3; half++)
            {
                var beside = Math.Max(Lowest(left, centre - half - 3, centre - half - 1), Lowest(left, centre + half + 1, centre + half + 3));
                // The lowest but two: the path tears holes.
                var height = inside[2] - beside;
                if (height > Math.Max(least, 5 * Error(heard, centre)) && inside[inside.Count / 2] - beside < evenly * height && (best is null || height > best.Value.Height))
                    best = (shape, half, height, beside);
            }
        }
        return best;
    }

    private static bool AreAlike(double[] left, Occupancy heard, int centre, int inner)
    {
        double lower = Middle(left, centre - inner, inner), upper = Middle(left, centre + 1, inner);
        return Math.Abs(lower - upper) < (0.1 * Math.Max(lower, upper)) + (3 * Error(heard, centre));
    }

    private static double Middle(double[] values, int from, int many) => values.Skip(Math.Max(0, from)).Take(many).OrderBy(each => each).ElementAt(many / 2);

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
        return [.. plan.Advertising.Select(each => new HeardSystem(SystemKind.BluetoothLeAdvertising, each.Index, null, plan.Occupied(each), share))];

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
                yield return new(SystemKind.Ieee802154, number, null, plan.Occupied(number)!.Value, height);
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
