namespace RadioLint.Analyzers.HostCode;

/// <summary>The SPI commands that host code may spell out (nRF24L01+ Product Specification 1.0, Table 20).</summary>
internal static class RadioCommands
{
    public const byte WRegister = 0x20;
    public const byte RegisterMask = 0x1F;
    public const byte CommandMask = 0xE0;
    public const byte Status = 0x07;
    public const byte WTxPayload = 0xA0;
    public const byte WTxPayloadNoAck = 0xB0;

    /// <summary>PWR_UP of CONFIG (Table 28).</summary>
    public const byte PwrUp = 0x02;
}
