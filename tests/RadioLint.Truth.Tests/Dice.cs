namespace RadioLint.Tests.Truth;

/// <summary>Numbers that are the same for a seed on every system (SplitMix64, Steele, Lea, Flood 2014).</summary>
public sealed class Dice(ulong seed)
{
    private ulong state = seed;

    public int Below(int limit) => (int)(Next() % (ulong)limit);

    private ulong Next()
    {
        state += 0x9E3779B97F4A7C15;
        var mixed = state;
        mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9;
        mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EB;
        return mixed ^ (mixed >> 31);
    }
}
