namespace RadioLint.Simulation;

/// <summary>Three levels of up to 32 bytes, first in first out (nRF24L01+ Product Specification 1.0, 8.4 p55).</summary>
public sealed class PayloadFifo
{
    public const int Levels = 3;
    public const int LevelBytes = 32;

    private readonly byte[] store = new byte[Levels * LevelBytes];
    private readonly PayloadInfo[] infos = new PayloadInfo[Levels];

    // Storage places in the order of arrival.
    private readonly int[] order = [0, 1, 2];

    public int Count { get; private set; }

    public bool IsEmpty => Count == 0;

    public bool IsFull => Count == Levels;

    /// <summary>What belongs to the payload at a place, 0 the oldest.</summary>
    public PayloadInfo Info(int index) => infos[order[index]];

    public ReadOnlySpan<byte> Payload(int index) => store.AsSpan(order[index] * LevelBytes, infos[order[index]].Length);

    /// <summary>Appends; the caller has seen that there is room.</summary>
    public void Push(ReadOnlySpan<byte> payload, int pipe, int pid, bool noAck)
    {
        var place = order[Count];
        payload.CopyTo(store.AsSpan(place * LevelBytes));
        infos[place] = new(payload.Length, pipe, pid, noAck);
        Count++;
    }

    public void RemoveAt(int index)
    {
        var place = order[index];
        for (var i = index; i < Count - 1; i++)
            order[i] = order[i + 1];
        order[--Count] = place;
    }

    /// <summary>The oldest payload for a pipe, or -1.</summary>
    public int IndexOf(int pipe)
    {
        for (var i = 0; i < Count; i++)
        {
            if (Info(i).Pipe == pipe)
                return i;
        }
        return -1;
    }

    public void Clear() => Count = 0;
}
