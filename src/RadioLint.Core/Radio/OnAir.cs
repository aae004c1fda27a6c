using RadioLint.Model;
using RadioLint.Units;

namespace RadioLint.Radio;

/// <summary>Times of packets on air, from the nRF24L01+ Product Specification 1.0.</summary>
public static class OnAir
{
    /// <summary>Standby to TX or RX, and between them (Table 16 p24).</summary>
    public static readonly Duration Settling = Duration.FromMicroseconds(130);

    /// <summary>The step of the retry delay, and its least value (Table 28 p58).</summary>
    public static readonly Duration RetryStep = Duration.FromMicroseconds(250);

    /// <summary>The longest retry delay (Table 28 p58).</summary>
    public static readonly Duration LongestRetryDelay = Duration.FromMicroseconds(4_000);

    /// <summary>Bits of the packet control field (7.3.3 p28); plain ShockBurst has none (7.9.1 p49).</summary>
    public const int ControlBits = 9;

    /// <summary>
    /// A packet from its first preamble bit to its last CRC bit: (8 (1 + address + payload + CRC) + 9) bits (Table 19 p42).
    /// </summary>
    public static Duration Packet(DataRate rate, int addressBytes, int payloadBytes, int crcBytes, bool hasControlField = true) =>
        rate.BitTime() * ((8 * (1 + addressBytes + payloadBytes + crcBytes)) + (hasControlField ? ControlBits : 0));

    /// <summary>What the interrupt line adds; the document gives none at 250 kbps (Figure 15 p42).</summary>
    public static Duration Interrupt(DataRate rate) => rate switch
    {
        DataRate.Mbps1 => new(8_200),
        DataRate.Mbps2 => new(6_000),
        _ => new(0),
    };

    /// <summary>Payload bytes over SPI; the command byte is not counted (Table 19 p42).</summary>
    public static Duration Upload(int payloadBytes, Frequency spi) => new(payloadBytes * 8 * 1_000_000_000L / spi.Hertz);

    /// <summary>One acknowledged exchange: upload, settling, packet, settling, acknowledgement, interrupt (Table 19 p42).</summary>
    public static Duration Cycle(DataRate rate, int addressBytes, int payloadBytes, int crcBytes, int ackPayloadBytes, Frequency spi) =>
        Upload(payloadBytes, spi) + (Settling * 2) + Packet(rate, addressBytes, payloadBytes, crcBytes)
        + Packet(rate, addressBytes, ackPayloadBytes, crcBytes) + Interrupt(rate);

    /// <summary>
    /// From loading the payload to MAX_RT when nothing is acknowledged: upload + 130 us + (ARC + 1)(packet + ARD) + ARC x 130 us
    /// (derived from Figures 10 and 17).
    /// </summary>
    public static Duration GivingUp(
        DataRate rate, int addressBytes, int payloadBytes, int crcBytes, Duration retryDelay, int retries, Frequency spi) =>
        Upload(payloadBytes, spi) + Settling + ((Packet(rate, addressBytes, payloadBytes, crcBytes) + retryDelay) * (retries + 1)) + (Settling * retries);

    /// <summary>The least delay in which the acknowledgement can arrive at all: settling and its time on air (7.4.2 p34).</summary>
    public static Duration AcknowledgeArrives(DataRate rate, int addressBytes, int crcBytes, int ackPayloadBytes) =>
        Settling + Packet(rate, addressBytes, ackPayloadBytes, crcBytes);

    /// <summary>The next multiple of 250 us that is not below a time.</summary>
    public static Duration RoundUpToStep(Duration time) => RetryStep * ((time.Nanoseconds + RetryStep.Nanoseconds - 1) / RetryStep.Nanoseconds);
}
