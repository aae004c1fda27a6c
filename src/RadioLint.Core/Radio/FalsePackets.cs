using RadioLint.Model;

namespace RadioLint.Radio;

/// <summary>Packets that nobody sent: noise that happens to match address and check sum.</summary>
public static class FalsePackets
{
    /// <summary>
    /// The mean time from one to the next: at each bit one chance in 2^(8 x (address + CRC bytes)) for each open pipe. Derived for bits that
    /// are even and independent; no credit is given for the preamble. In nanoseconds: long addresses go beyond what a duration holds.
    /// </summary>
    public static decimal MeanTime(DataRate rate, int addressBytes, int crcBytes, int pipes)
    {
        var bits = 1m;
        for (var i = 0; i < addressBytes + crcBytes; i++)
            bits *= 256;
        return bits * rate.BitTime().Nanoseconds / pipes;
    }
}
