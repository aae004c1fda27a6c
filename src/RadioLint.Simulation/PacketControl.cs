namespace RadioLint.Simulation;

/// <summary>The packet control field: 6 bits of length, 2 of identity, 1 of NO_ACK (nRF24L01+ Product Specification 1.0, 7.3.3 p28).</summary>
public readonly record struct PacketControl(int Length, int Pid, bool NoAck)
{
    public const int Bits = 9;

    /// <summary>
    /// What a sender of static length writes as length. The data sheet leaves it open ("only used if the Dynamic Payload Length
    /// function is enabled", 7.3.3.1 p29); captures of other people's radios show this.
    /// </summary>
    public const int StaticLength = 0b110011;

    public static PacketControl Unpack(int bits) => new(bits >> 3, (bits >> 1) & 3, (bits & 1) != 0);

    public int Pack() => (Length << 3) | (Pid << 1) | (NoAck ? 1 : 0);
}
