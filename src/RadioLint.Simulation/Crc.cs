namespace RadioLint.Simulation;

/// <summary>
/// The checksum over address, packet control field and payload, bit by bit in air order, not reflected and not inverted: 1 byte
/// x^8 + x^2 + x + 1 from 0xFF, 2 bytes x^16 + x^12 + x^5 + 1 from 0xFFFF (nRF24L01+ Product Specification 1.0, 7.3.5 p30).
/// </summary>
public static class Crc
{
    private const int Polynomial8 = 0x07;
    private const int Polynomial16 = 0x1021;
    private static readonly byte[] Table8 = [.. Enumerable.Range(0, 256).Select(value => (byte)Shift(value, 8, 8, Polynomial8))];
    private static readonly ushort[] Table16 = [.. Enumerable.Range(0, 256).Select(value => (ushort)Shift(value << 8, 8, 16, Polynomial16))];

    /// <summary>Checksum of the first so many bits of a packed stream, most significant bit first.</summary>
    /// <param name="bytes">Width of the checksum: 1 or 2.</param>
    public static int Of(ReadOnlySpan<byte> stream, int bits, int bytes) => bytes == 1 ? Of8(stream, bits) : Of16(stream, bits);

    private static int Of8(ReadOnlySpan<byte> stream, int bits)
    {
        var value = 0xFF;
        var whole = bits >> 3;
        for (var i = 0; i < whole; i++)
            value = Table8[value ^ stream[i]];
        var left = bits & 7;
        return left == 0 ? value : Shift(value ^ (stream[whole] & (0xFF00 >> left) & 0xFF), left, 8, Polynomial8);
    }

    private static int Of16(ReadOnlySpan<byte> stream, int bits)
    {
        var value = 0xFFFF;
        var whole = bits >> 3;
        for (var i = 0; i < whole; i++)
            value = ((value << 8) & 0xFFFF) ^ Table16[(value >> 8) ^ stream[i]];
        var left = bits & 7;
        return left == 0 ? value : Shift(value ^ ((stream[whole] & (0xFF00 >> left) & 0xFF) << 8), left, 16, Polynomial16);
    }

    private static int Shift(int value, int steps, int width, int polynomial)
    {
        var top = 1 << (width - 1);
        var mask = (1 << width) - 1;
        for (var i = 0; i < steps; i++)
            value = ((value & top) != 0 ? (value << 1) ^ polynomial : value << 1) & mask;
        return value;
    }
}
