namespace RadioLint.Simulation;

/// <summary>The three flags of STATUS; their masks stand at the same places in CONFIG (nRF24L01+ Product Specification 1.0, Table 28 p57, p59).</summary>
public static class StatusFlags
{
    public const byte RxDr = 0x40;
    public const byte TxDs = 0x20;
    public const byte MaxRt = 0x10;
    public const byte All = RxDr | TxDs | MaxRt;
}
