using RadioLint.Units;

namespace RadioLint.Spectrum;

/// <summary>How strong somebody else's signal is where a receiver listens. Upper bounds: a mask is a limit, not what a device sends.</summary>
public static class InterfererLevel
{
    /// <summary>20 dBm EIRP, the most that a 2.4 GHz wideband device may radiate in CEPT countries (ETSI EN 300 328).</summary>
    public static readonly PowerLevel UsualWifi = new(2_000);

    /// <summary>0 dBm EIRP: a radio of this kind at its strongest step with a printed antenna (nRF24L01+ Product Specification 1.0, Table 6).</summary>
    public static readonly PowerLevel UsualNetwork = new(0);

    // Offsets in MHz and dBr for 20 MHz; both scale with the width (IEEE 802.11, transmit mask of 20 MHz OFDM).
    private static readonly (double Offset, double Level)[] Mask = [(9, 0), (11, -20), (20, -28), (30, -40)];

    /// <summary>The transmit mask of OFDM so far from the centre, straight between its points in dB (COEX-04 of the worked examples).</summary>
    /// <param name="width">Of the channel: 20 MHz, 40 MHz for a pair.</param>
    public static Gain OfdmMask(Frequency offset, Frequency width)
    {
        var at = offset.Hertz * 20.0 / width.Hertz;
        for (var i = 0; i < Mask.Length; i++)
        {
            if (at > Mask[i].Offset)
                continue;
            if (i == 0)
                return new(0);
            var (from, to) = (Mask[i - 1], Mask[i]);
            return Decibels.Rounded(from.Level + ((to.Level - from.Level) * (at - from.Offset) / (to.Offset - from.Offset)));
        }
        return Decibels.Rounded(Mask[Mask.Length - 1].Level);
    }

    /// <summary>What of an OFDM signal falls into a narrow band: its power spread evenly over its width, the mask, and the path's loss (COEX-05).</summary>
    /// <param name="eirp">In the whole width.</param>
    /// <param name="offset">Between the centres.</param>
    /// <param name="band">Of the receiver; narrow beside the width.</param>
    public static PowerLevel InBand(PowerLevel eirp, Frequency width, Frequency offset, Frequency band, Gain loss) =>
        eirp - Decibels.OfPowers((double)width.Hertz / Math.Min(width.Hertz, band.Hertz)) + OfdmMask(offset, width) - loss;

    /// <summary>From the least to the most, over a distance that is not sharply known.</summary>
    public static Between<PowerLevel> Over(PowerLevel eirp, Between<Length> distance) => new(
        eirp - PathLoss.FreeSpace(PathLoss.MidBand, distance.High), eirp - PathLoss.FreeSpace(PathLoss.MidBand, distance.Low));
}
