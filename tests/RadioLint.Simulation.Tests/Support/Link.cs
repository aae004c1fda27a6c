using RadioLint.Simulation;

namespace RadioLint.Tests.Simulation.Support;

/// <summary>Settings of one end, written register by register as nRF24L01+ Product Specification 1.0, Table 28 p57-63 codes them.</summary>
internal sealed record Link
{
    public int Channel { get; init; } = 74;
    public AirRate Rate { get; init; } = AirRate.Mbps1;
    public int Width { get; init; } = 5;
    public int Crc { get; init; } = 2;
    public int Length { get; init; } = 8;
    public ulong Address { get; init; } = Pair.Address;

    /// <summary>RX_ADDR_P0 of a sender; that of the link when null.</summary>
    public ulong? AckAddress { get; init; }

    public byte EnAa { get; init; } = 0x3F;

    /// <summary>0 to 15 for 250 to 4000 us; when null, 1 (500 us).</summary>
    public int Delay { get; init; } = 1;

    public int Retries { get; init; } = 3;
    public byte DynPd { get; init; }
    public byte Feature { get; init; }
    public byte EnRxAddr { get; init; } = 0x03;
    public byte RfPower { get; init; } = 0x06;

    /// <summary>The pipe at which a receiver holds the address: 0 or 1.</summary>
    public int Pipe { get; init; } = 1;

    public void Configure(Chip chip, bool isReceiver)
    {
        Write(chip, Register.Config, 0x08);
        if (chip.Variant.NeedsUnlock && (Feature != 0 || DynPd != 0))
            chip.Transfer(Command.Activate, Command.ActivateKey);
        Write(chip, Register.EnAa, EnAa);
        Write(chip, Register.EnRxAddr, EnRxAddr);
        Write(chip, Register.SetupAw, (byte)(Width - 2));
        Write(chip, Register.SetupRetr, (byte)((Delay << 4) | Retries));
        Write(chip, Register.RfCh, (byte)Channel);
        Write(chip, Register.RfSetup, (byte)(RfPower | (Rate == AirRate.Kbps250 ? 0x20 : Rate == AirRate.Mbps2 ? 0x08 : 0)));
        if (isReceiver)
        {
            WriteAddress(chip, (byte)(Register.RxAddrP0 + Pipe), Address);
            Write(chip, (byte)(Register.RxPwP0 + Pipe), (byte)Length);
        }
        else
        {
            WriteAddress(chip, Register.TxAddr, Address);
            WriteAddress(chip, Register.RxAddrP0, AckAddress ?? Address);
        }
        if (Feature != 0 || DynPd != 0)
        {
            Write(chip, Register.Feature, Feature);
            Write(chip, Register.DynPd, DynPd);
        }
        Write(chip, Register.Config, (byte)(0x02 | (isReceiver ? 0x01 : 0) | (Crc == 0 ? 0 : 0x08) | (Crc == 2 ? 0x04 : 0)));
    }

    public static void Write(Chip chip, byte register, byte value) => chip.Transfer((byte)(Command.WRegister | register), value);

    public void WriteAddress(Chip chip, byte register, ulong address)
    {
        var frame = new byte[1 + Width];
        frame[0] = (byte)(Command.WRegister | register);
        for (var i = 0; i < Width; i++)
            frame[1 + i] = (byte)(address >> (8 * i));
        chip.Transfer(frame);
    }
}
