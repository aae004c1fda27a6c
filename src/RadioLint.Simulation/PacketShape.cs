namespace RadioLint.Simulation;

/// <summary>Where a radio cuts a stream of bits: by its own settings, whatever was sent.</summary>
/// <param name="AddressBytes">3 to 5.</param>
/// <param name="HasControl">False in plain ShockBurst (nRF24L01+ Product Specification 1.0, 7.9.1 p49).</param>
/// <param name="CrcBytes">0 to 2.</param>
public readonly record struct PacketShape(int AddressBytes, bool HasControl, int CrcBytes)
{
    /// <summary>One byte, 7.3.1 p28.</summary>
    public const int PreambleBits = 8;

    /// <summary>From the first preamble bit to the last address bit.</summary>
    public int ToAddressEnd => PreambleBits + (8 * AddressBytes);

    /// <summary>First bit of the payload.</summary>
    public int PayloadAt => ToAddressEnd + (HasControl ? PacketControl.Bits : 0);

    /// <summary>First bit of the checksum.</summary>
    public int CrcAt(int payload) => PayloadAt + (8 * payload);

    /// <summary>The whole packet: 8 (1 + AW + N + CRC) + 9 (Table 19 p42).</summary>
    public int Total(int payload) => CrcAt(payload) + (8 * CrcBytes);
}
