namespace RadioLint.Simulation;

/// <summary>Addresses of the registers (nRF24L01+ Product Specification 1.0, Table 28 p57-63).</summary>
public static class Register
{
    public const byte Config = 0x00;
    public const byte EnAa = 0x01;
    public const byte EnRxAddr = 0x02;
    public const byte SetupAw = 0x03;
    public const byte SetupRetr = 0x04;
    public const byte RfCh = 0x05;
    public const byte RfSetup = 0x06;
    public const byte Status = 0x07;
    public const byte ObserveTx = 0x08;
    public const byte Rpd = 0x09;
    public const byte RxAddrP0 = 0x0A;
    public const byte RxAddrP1 = 0x0B;
    public const byte RxAddrP5 = 0x0F;
    public const byte TxAddr = 0x10;
    public const byte RxPwP0 = 0x11;
    public const byte RxPwP5 = 0x16;
    public const byte FifoStatus = 0x17;
    public const byte FirstTest = 0x18;
    public const byte LastTest = 0x1B;
    public const byte DynPd = 0x1C;
    public const byte Feature = 0x1D;

    /// <summary>How many addresses the command words can name.</summary>
    public const int Count = 0x20;

    /// <summary>True for the three registers that hold up to five bytes.</summary>
    public static bool IsWide(byte register) => register is RxAddrP0 or RxAddrP1 or TxAddr;
}
