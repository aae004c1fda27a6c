namespace RadioLint.Simulation;

/// <summary>A loss for each pair, the same both ways, and one for all the others.</summary>
public sealed class PairLoss : IPropagation
{
    /// <summary>
    /// Free space over 1 m at 2.44 GHz: 20 log10(4 pi d / wavelength) = 40.2 dB, here 40.
    /// </summary>
    public const double OneMetre = 40;

    private readonly Dictionary<(int, int), double> pairs = [];

    /// <summary>Where no pair is stated.</summary>
    public double Otherwise { get; set; } = OneMetre;

    public void Set(int one, int other, double lossDb) => pairs[Key(one, other)] = lossDb;

    public double LossDb(int from, int to, int channel) =>
        pairs.Count > 0 && pairs.TryGetValue(Key(from, to), out var loss) ? loss : Otherwise;

    private static (int, int) Key(int one, int other) => one < other ? (one, other) : (other, one);
}
