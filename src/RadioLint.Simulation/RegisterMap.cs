namespace RadioLint.Simulation;

/// <summary>
/// The stored registers with their reset values and reserved bits (nRF24L01+ Product Specification 1.0, Table 28 p57-63). Reserved bits
/// do not stick: undefined bits read 0 (9.1 p57). Registers that show live values are not here.
/// </summary>
public sealed class RegisterMap
{
    private const int WideBytes = 5;
    private static readonly byte[] ResetBytes =
    [
        0x08, 0x3F, 0x03, 0x03, 0x03, 0x02, 0x0E, 0, 0, 0, 0, 0, 0xC3, 0xC4, 0xC5, 0xC6, 0,
        0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
    ];

    private static readonly byte[] ReservedBits =
    [
        0x80, 0xC0, 0xC0, 0xFC, 0, 0x80, 0x40, 0x80, 0, 0, 0, 0, 0, 0, 0, 0, 0,
        0xC0, 0xC0, 0xC0, 0xC0, 0xC0, 0xC0, 0x8C, 0, 0, 0, 0, 0xC0, 0xF8, 0, 0,
    ];

    private readonly ChipVariant variant;
    private readonly byte[] values = new byte[Register.Count];

    // RX_ADDR_P0, RX_ADDR_P1 and TX_ADDR, least significant byte first, as SPI carries them.
    private readonly byte[] wide = new byte[3 * WideBytes];

    public RegisterMap(ChipVariant variant)
    {
        this.variant = variant;
        Reset();
    }

    /// <summary>A register of one byte, as stored.</summary>
    public byte this[byte register] => values[register];

    public void Reset()
    {
        ResetBytes.CopyTo(values, 0);
        values[Register.RfSetup] = variant.SetupReset;
        Wide(Register.RxAddrP0).Fill(0xE7);
        Wide(Register.RxAddrP1).Fill(0xC2);
        Wide(Register.TxAddr).Fill(0xE7);
    }

    public byte Reserved(byte register) => register == Register.RfSetup ? variant.SetupReserved : ReservedBits[register];

    public void Write(byte register, byte value) => values[register] = (byte)(value & ~Reserved(register));

    /// <summary>Five bytes, least significant first. A write that stops early leaves the upper ones (Table 20 p51).</summary>
    public Span<byte> Wide(byte register) => wide.AsSpan(register switch
    {
        Register.RxAddrP0 => 0,
        Register.RxAddrP1 => WideBytes,
        _ => 2 * WideBytes,
    }, WideBytes);

    /// <summary>The low-order bytes of an address register (Table 28, SETUP_AW).</summary>
    public ulong Address(byte register, int width)
    {
        var address = 0UL;
        var stored = Wide(register);
        for (var i = width - 1; i >= 0; i--)
            address = (address << 8) | stored[i];
        return address;
    }
}
