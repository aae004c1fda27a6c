using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>How long a battery feeds a node: life = usable charge / (mean current + self-discharge), ended by the shelf life.</summary>
public static class BatteryLife
{
    /// <summary>The share of the rated charge that counts: ageing and cut-off, value from memory.</summary>
    public static readonly Between<Share> Usable = new(new(700_000), new(850_000));

    /// <summary>What is left of it in the cold, value from memory.</summary>
    public static readonly Share Cold = new(500_000);

    // 365.25 days; a life of two centuries is one without end.
    private const decimal HoursInYear = 8_766, Longest = 200 * HoursInYear;

    /// <summary>Self-discharge as a current: charge x share of a year.</summary>
    public static Current SelfDischarge(Charge capacity, Share inYear) =>
        new((long)decimal.Round(capacity.MicroampereHours * 1_000m * inYear.Millionths / 1_000_000 / HoursInYear));

    /// <summary>Hours that a charge lasts.</summary>
    public static decimal Hours(Charge usable, Current draws) =>
        draws.Nanoamperes <= 0 ? Longest : Math.Min(Longest, usable.MicroampereHours * 1_000m / draws.Nanoamperes);

    /// <summary>
    /// What a cell holds at a load: its first figure up to the first load, then by Peukert's law between the listed loads, I^k t constant;
    /// the last figure beyond.
    /// </summary>
    public static Charge CapacityAt(CellKind kind, Charge rated, Current load)
    {
        var rows = kind.CapacityByLoad;
        for (var i = 1; i < rows.Length; i++)
        {
            var (light, heavy) = (rows[i - 1], rows[i]);
            if (load <= light.Load || (load > heavy.Load && i < rows.Length - 1))
                continue;
            var at = load > heavy.Load ? heavy.Load : load;
            // C = I t = C1 (I1 / I)^(k - 1)
            var share = Math.Pow((double)light.Load.Nanoamperes / at.Nanoamperes, PeukertExponent(light, heavy) - 1);
            return new((long)Math.Round(rated.MicroampereHours / 1_000.0 * share * light.Capacity.MicroampereHours / rows[0].Capacity.MicroampereHours) * 1_000);
        }
        return rated;
    }

    /// <summary>k = ln(t1 / t2) / ln(I2 / I1).</summary>
    public static double PeukertExponent(CapacityAtLoad light, CapacityAtLoad heavy)
    {
        var first = (double)light.Capacity.MicroampereHours / light.Load.Nanoamperes;
        var second = (double)heavy.Capacity.MicroampereHours / heavy.Load.Nanoamperes;
        return Math.Log(first / second) / Math.Log((double)heavy.Load.Nanoamperes / light.Load.Nanoamperes);
    }

    /// <summary>
    /// The shortest and the longest life of a node's battery at mean currents from <paramref name="least"/> to <paramref name="most"/>;
    /// null while its charge is not known.
    /// </summary>
    /// <param name="peak">What the node draws at once: stronger pulses than a cell is made for cost charge.</param>
    public static Between<Duration>? Of(Battery battery, Current least, Current most, Current? peak = null)
    {
        if (BatteryFacts.Capacity(battery) is not { } rated)
            return null;
        var kind = BatteryFacts.Kind(battery);
        var leak = kind is null ? new Current(0) : SelfDischarge(rated, kind.SelfDischarge.Value);
        var loss = kind is { Pulse: { } pulse, PulseLoss: { } costs } && peak > pulse.Value ? 1_000_000 - costs.Value.Millionths : 1_000_000;
        var worst = Part(Part(kind is null ? rated : CapacityAt(kind, rated, most), Usable.Low), new(loss));
        var best = Part(kind is null ? rated : CapacityAt(kind, rated, least), Usable.High);
        return new(Capped(Hours(worst, most + leak), kind), Capped(Hours(best, least + leak), kind));
    }

    /// <summary>A share of a charge.</summary>
    public static Charge Part(Charge whole, Share part) => new((long)((decimal)whole.MicroampereHours * part.Millionths / 1_000_000));

    private static Duration Capped(decimal hours, CellKind? kind)
    {
        var life = new Duration((long)(hours * 3_600_000_000_000m));
        return kind?.ShelfLife is { } shelf && life > shelf.Value ? shelf.Value : life;
    }
}
