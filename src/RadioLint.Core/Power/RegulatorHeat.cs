using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>What a linear regulator turns into heat: P = (Vin - Vout) I + Vin Iq (AMS1117 data sheet, thermal section).</summary>
public static class RegulatorHeat
{
    /// <summary>In microwatts.</summary>
    public static long Microwatts(Voltage input, Voltage output, Current load, Current quiescent) =>
        (long)((((decimal)(input - output).Millivolts * load.Nanoamperes) + ((decimal)input.Millivolts * quiescent.Nanoamperes)) / 1_000_000);

    /// <summary>How much hotter than the air the junction gets: P x theta, up to the next hundredth of a degree.</summary>
    public static Temperature Rise(long microwatts, Temperature risePerWatt) =>
        new((int)decimal.Ceiling((decimal)microwatts * risePerWatt.Centi / 1_000_000));
}
