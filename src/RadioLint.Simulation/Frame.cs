namespace RadioLint.Simulation;

/// <summary>
/// The bits of one packet as they go over the air, packed, first bit highest: preamble, address with its most significant byte first,
/// packet control field, payload, checksum (nRF24L01+ Product Specification 1.0, 7.3 p28, Figure 7 p31).
/// </summary>
public sealed class Frame
{
    /// <summary>Enough for 329 bits, the longest packet.</summary>
    public const int Capacity = 48;

    private readonly byte[] bytes = new byte[Capacity];
    private int written;
    private uint pending;
    private int pendingBits;

    /// <summary>In bits.</summary>
    public int Length { get; private set; }

    /// <summary>Packed; bits beyond <see cref="Length"/> are left from before.</summary>
    public ReadOnlySpan<byte> Bytes => bytes;

    /// <summary>Puts a packet together.</summary>
    /// <param name="address">Most significant byte first on air.</param>
    /// <param name="control">Ignored in plain ShockBurst.</param>
    public void Build(PacketShape shape, ulong address, PacketControl control, ReadOnlySpan<byte> payload)
    {
        written = 0;
        pending = 0;
        pendingBits = 0;
        // 10101010 when the first address bit is 1, else 01010101 (7.3.1 p28).
        var isFirstBitSet = ((address >> ((8 * shape.AddressBytes) - 1)) & 1) != 0;
        bytes[written++] = isFirstBitSet ? (byte)0xAA : (byte)0x55;
        for (var i = shape.AddressBytes - 1; i >= 0; i--)
            bytes[written++] = (byte)(address >> (8 * i));
        if (shape.HasControl)
            Append((uint)control.Pack(), PacketControl.Bits);
        foreach (var value in payload)
            Append(value, 8);
        var covered = (8 * (written - 1)) + pendingBits;
        Flush();
        if (shape.CrcBytes > 0)
            Append((uint)Crc.Of(bytes.AsSpan(1), covered, shape.CrcBytes), 8 * shape.CrcBytes);
        Length = (8 * written) + pendingBits;
        Flush();
    }

    private void Append(uint value, int count)
    {
        pending = (pending << count) | value;
        pendingBits += count;
        while (pendingBits >= 8)
        {
            pendingBits -= 8;
            bytes[written++] = (byte)(pending >> pendingBits);
        }
        pending &= (1u << pendingBits) - 1;
    }

    // Bits that do not fill a byte are put down without moving on, so that a checksum can be taken and more can follow.
    private void Flush() => bytes[written] = (byte)(pending << (8 - pendingBits));
}
