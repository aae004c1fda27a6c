namespace RadioLint.Simulation;

/// <summary>SPI command words (nRF24L01+ Product Specification 1.0, Table 20 p51).</summary>
public static class Command
{
    /// <summary>000AAAAA.</summary>
    public const byte ReadRegister = 0x00;

    /// <summary>001AAAAA.</summary>
    public const byte WriteRegister = 0x20;

    public const byte ReadRxPayload = 0x61;
    public const byte WriteTxPayload = 0xA0;
    public const byte FlushTx = 0xE1;
    public const byte FlushRx = 0xE2;
    public const byte ReuseTxPayload = 0xE3;
    public const byte ReadRxPayloadWidth = 0x60;

    /// <summary>10101PPP.</summary>
    public const byte WriteAckPayload = 0xA8;

    public const byte WriteTxPayloadNoAck = 0xB0;
    public const byte Nop = 0xFF;

    /// <summary>The earlier part alone (nRF24L01 Product Specification 2.0, Table 16 p46); followed by 0x73.</summary>
    public const byte Activate = 0x50;

    public const byte ActivateKey = 0x73;
}
