namespace RadioLint.Simulation;

/// <summary>Random bits that repeat with their seed: a counter through a mixing function (the finaliser of the SplitMix64 generator).</summary>
public struct NoiseSource(ulong seed)
{
    private ulong state = seed;

    public ulong Next()
    {
        state += 0x9E3779B97F4A7C15;
        var mixed = state;
        mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9;
        mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EB;
        return mixed ^ (mixed >> 31);
    }

    /// <summary>From 0 to just below 1.</summary>
    public double NextFraction() => (Next() >> 11) * (1.0 / (1UL << 53));
}
