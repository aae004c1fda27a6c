namespace RadioLint.Simulation;

/// <summary>The next moment of each chip, with the earliest at hand: a tree of winners. Of equal moments the lower number comes first.</summary>
internal sealed class EventTree
{
    private long[] times = [Ticks.Never];
    private int[] winners = [0, 0];
    private int leaves = 1;

    /// <summary>The chip whose turn is next.</summary>
    public int First => winners[1];

    /// <summary>When that is.</summary>
    public long FirstTime => times[winners[1]];

    /// <summary>Makes room; all moments are forgotten.</summary>
    public void Resize(int count)
    {
        leaves = 1;
        while (leaves < count)
            leaves *= 2;
        times = new long[leaves];
        winners = new int[2 * leaves];
        Clear();
    }

    public void Clear()
    {
        Array.Fill(times, Ticks.Never);
        for (var i = 0; i < leaves; i++)
            winners[leaves + i] = i;
        for (var node = leaves - 1; node >= 1; node--)
            winners[node] = winners[2 * node];
        if (leaves == 1)
            winners[1] = 0;
    }

    public void Set(int index, long time)
    {
        if (times[index] == time)
            return;
        times[index] = time;
        for (var node = (leaves + index) / 2; node >= 1; node /= 2)
        {
            var left = winners[2 * node];
            var right = winners[(2 * node) + 1];
            winners[node] = times[left] <= times[right] ? left : right;
        }
    }
}
