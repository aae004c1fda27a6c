using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>What Wi-Fi sends beside its channel.</summary>
public static class WifiSkirt
{
    /// <summary>
    /// How far below its middle a signal may be at a carrier: the mask for OFDM, 0 dB to half the width less 1 MHz, 20 dB at half the width and 1 MHz, 28 dB at
    /// the width, 40 dB at one and a half of it and beyond, straight between (IEEE 802.11, as chip makers quote it; facts COEX-04). A mask is a limit: real
    /// skirts lie 5 to 15 dB lower near the edge.
    /// </summary>
    /// <param name="occupied">What the signal fills.</param>
    public static Gain Down(Between<Frequency> occupied, Frequency carrier)
    {
        var half = (occupied.High.Hertz - occupied.Low.Hertz) / 2e6;
        var off = Math.Abs(carrier.Hertz - ((occupied.Low.Hertz + occupied.High.Hertz) / 2)) / 1e6;
        return Decibels.Rounded(
            off <= half - 1 ? 0
            : off <= half + 1 ? 10 * (off - half + 1)
            : off <= 2 * half ? 20 + (8 * (off - half - 1) / (half - 1))
            : Math.Min(40, 28 + (12 * (off - (2 * half)) / half)));
    }
}
