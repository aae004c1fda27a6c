using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>
/// What a path takes away between two isotropic antennas, by published models. They are estimates: a real place differs by several dB either
/// way, which is what a margin is for.
/// </summary>
public static class PathLoss
{
    /// <summary>Where the estimates are made: over the band a loss moves by 0.15 dB.</summary>
    public static readonly Frequency MidBand = Frequency.FromMegahertz(2_440);

    private const double LightMetresPerSecond = 299_792_458;

    /// <summary>20 log (4 pi d f / c) (ITU-R P.525); a path shorter than the near field of a small antenna loses nothing.</summary>
    public static Gain FreeSpace(Frequency at, Length distance) =>
        AtLeastNone(Decibels.OfFields(4 * Math.PI * Metres(distance) * at.Hertz / LightMetresPerSecond));

    /// <summary>How far free space reaches until it has taken a loss, in whole centimetres: <see cref="FreeSpace"/> turned round.</summary>
    public static Length FreeSpaceReach(Frequency at, Gain loss) =>
        Rounded(Decibels.Fields(loss) * LightMetresPerSecond / (4 * Math.PI * at.Hertz));

    /// <summary>
    /// Indoors on one floor: 20 log f + N log d - 28, f in MHz and d in metres, from 1 m on; nearer it is free space (ITU-R P.1238, site-general,
    /// editions before 10). Walls and furniture are in it.
    /// </summary>
    public static Gain Indoors(Frequency at, Length distance, int perDecade)
    {
        var near = FreeSpace(at, distance);
        if (distance.Millimetres <= 1_000)
            return near;
        var model = Decibels.Rounded((20 * Math.Log10(at.Hertz / 1e6)) + (perDecade * Math.Log10(Metres(distance))) - 28);
        return Larger(model, near);
    }

    /// <summary>How far it reaches on one floor until the model has taken a loss, in whole centimetres.</summary>
    public static Length IndoorReach(Frequency at, Gain loss, int perDecade) =>
        Rounded(Math.Pow(10, ((loss.Centi / 100.0) + 28 - (20 * Math.Log10(at.Hertz / 1e6))) / perDecade));

    /// <summary>N of ITU-R P.1238: residential 28, office 30, commercial 22; the rows for 1.8 to 2 GHz, which an older table repeats for 2.4 GHz.</summary>
    public static int PerDecade(Setting setting) => setting switch { Setting.House => 28, Setting.Office => 30, _ => 22 };

    /// <summary>Floors between the two: 4n residential, 15 + 4(n - 1) office, 6 + 3(n - 1) commercial (same place); outdoors the worst of them.</summary>
    public static Gain Floors(Setting setting, int floors) => new(100 * (floors <= 0 ? 0 : setting switch
    {
        Setting.House => 4 * floors,
        Setting.Hall => 6 + (3 * (floors - 1)),
        _ => 15 + (4 * (floors - 1)),
    }));

    /// <summary>
    /// Over flat ground: free space up to 4 pi h1 h2 / wavelength, from there 40 log d - 20 log h1 - 20 log h2, metres (plane earth, a textbook's
    /// result; value from memory).
    /// </summary>
    public static Gain TwoRay(Frequency at, Length distance, Length one, Length other)
    {
        var near = FreeSpace(at, distance);
        // Nearer than the cross-over it is the smaller of the two.
        var model = Decibels.Rounded((40 * Math.Log10(Metres(distance))) - (20 * Math.Log10(Metres(one))) - (20 * Math.Log10(Metres(other))));
        return Larger(model, near);
    }

    /// <summary>Where the ray from the ground begins to take away: 4 pi h1 h2 / wavelength, in whole centimetres.</summary>
    public static Length CrossOver(Frequency at, Length one, Length other) =>
        Rounded(4 * Math.PI * Metres(one) * Metres(other) * at.Hertz / LightMetresPerSecond);

    /// <summary>
    /// Dense dry foliage in leaf: 0.45 f^0.284 d up to 14 m, then 1.33 f^0.284 d^0.588 up to 400 m, f in GHz (Weissberger, 1982). Wet leaves and
    /// the season change it by several dB.
    /// </summary>
    public static Gain Vegetation(Frequency at, Length depth)
    {
        var (f, d) = (Math.Pow(at.Hertz / 1e9, 0.284), Math.Min(400, Metres(depth)));
        return Decibels.Rounded(d <= 14 ? 0.45 * f * d : 1.33 * f * Math.Pow(d, 0.588));
    }

    // A millimetre is nearer than any two antennas come.
    private static double Metres(Length length) => Math.Max(1, length.Millimetres) / 1_000.0;

    private static Length Rounded(double metres) => new(10 * (long)Math.Round(Math.Min(1e9, metres) * 100, MidpointRounding.AwayFromZero));

    private static Gain AtLeastNone(Gain loss) => Larger(loss, new(0));

    internal static Gain Larger(Gain one, Gain other) => new(Math.Max(one.Centi, other.Centi));
}
