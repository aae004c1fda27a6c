namespace RadioLint.Radio;

/// <summary>What the chip's check sums catch.</summary>
public static class CheckSum
{
    /// <summary>
    /// The most bits in which a CRC of 8 bits, polynomial 0x07, finds every 3 wrong ones (Hamming distance 4): 127 - 8, as 127 is the order of x
    /// (Koopman and Chakravarty, Cyclic Redundancy Code Polynomial Selection, DSN 2004; recomputed by brute force).
    /// </summary>
    private const int GuardedBits = 119;

    /// <summary>The longest payload so guarded by a CRC of one byte, which covers address, control field and payload (nRF24L01+ Product Specification 1.0, 7.3.5).</summary>
    public static int LongestGuarded(int addressBytes, bool hasControlField = true) =>
        (GuardedBits - (8 * addressBytes) - (hasControlField ? OnAir.ControlBits : 0)) / 8;
}
