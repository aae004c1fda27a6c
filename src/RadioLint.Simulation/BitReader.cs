namespace RadioLint.Simulation;

/// <summary>Takes values out of packed bits, first bit highest.</summary>
public static class BitReader
{
    /// <summary>Up to 16 bits from a place.</summary>
    public static int Bits(ReadOnlySpan<byte> stream, int at, int count)
    {
        var first = at >> 3;
        var window = (uint)stream[first] << 16;
        if (first + 1 < stream.Length)
            window |= (uint)stream[first + 1] << 8;
        if (first + 2 < stream.Length)
            window |= stream[first + 2];
        return (int)(window >> (24 - (at & 7) - count)) & ((1 << count) - 1);
    }

    /// <summary>Whole bytes from a place.</summary>
    public static void Bytes(ReadOnlySpan<byte> stream, int at, Span<byte> into)
    {
        var first = at >> 3;
        var shift = at & 7;
        if (shift == 0)
        {
            stream.Slice(first, into.Length).CopyTo(into);
            return;
        }
        for (var i = 0; i < into.Length; i++)
            into[i] = (byte)((stream[first + i] << shift) | (stream[first + i + 1] >> (8 - shift)));
    }

    /// <summary>An address, its first byte on air most significant.</summary>
    public static ulong Address(ReadOnlySpan<byte> stream, int width)
    {
        var address = 0UL;
        for (var i = 0; i < width; i++)
            address = (address << 8) | stream[1 + i];
        return address;
    }
}
