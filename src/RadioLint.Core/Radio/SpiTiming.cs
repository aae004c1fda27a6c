using RadioLint.Units;

namespace RadioLint.Radio;

/// <summary>How fast a controller may read the radio's MISO.</summary>
public static class SpiTiming
{
    private const long Near = 5;
    private const long EachDevice = 10;

    /// <summary>
    /// What hangs on MISO: 5 pF for the controller's input, 10 pF for each further device and 1 pF for each centimetre of wire
    /// (values from memory; no source).
    /// </summary>
    public static Capacitance Load(int furtherDevices, Length wires) => new(Near + (EachDevice * furtherDevices) + ((wires.Millimetres + 9) / 10));

    /// <summary>
    /// The clock whose half period just holds the radio's delay from SCK to MISO and the controller's set-up time: in SPI mode 0 the radio
    /// changes MISO after the falling edge and the controller samples on the next rising one (nRF24L01+ Product Specification 1.0, 8.3.2;
    /// ATmega328/P data sheet 42735A, table 32-9). Cut off to whole hertz.
    /// </summary>
    public static Frequency FastestRead(Duration delay, Duration setup) => new(1_000_000_000 / (2 * (delay + setup).Nanoseconds));
}
