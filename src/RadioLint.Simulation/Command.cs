namespace RadioLint.Simulation;

/// <summary>SPI command words by the data sheet's mnemonics (nRF24L01+ Product Specification 1.0, Table 20 p51).</summary>
public static class Command
{
    /// <summary>000AAAAA.</summary>
    public const byte RRegister = 0x00;

    /// <summary>001AAAAA.</summary>
    public const byte WRegister = 0x20;

    public const byte RRxPayload = 0x61;
    public const byte WTxPayload = 0xA0;
    public const byte FlushTx = 0xE1;
    public const byte FlushRx = 0xE2;
    public const byte ReuseTxPl = 0xE3;
    public const byte RRxPlWid = 0x60;

    /// <summary>10101PPP.</summary>
    public const byte WAckPayload = 0xA8;

    public const byte WTxPayloadNoAck = 0xB0;
    public const byte Nop = 0xFF;

    /// <summary>The earlier part alone (nRF24L01 Product Specification 2.0, Table 16 p46); followed by 0x73.</summary>
    public const byte Activate = 0x50;

    public const byte ActivateKey = 0x73;
}
