namespace RadioLint.Simulation;

/// <summary>What the registers amount to; worked out anew after each write.</summary>
public sealed class RadioSettings
{
    public const int Pipes = 6;
    private const int LastChannel = 125;
    private readonly ulong[] addresses = new ulong[Pipes];
    private readonly int[] lengths = new int[Pipes];
    private int dynamicPipes;
    private int openPipes;
    private int ackPipes;

    public bool IsPowered { get; private set; }

    /// <summary>PRIM_RX.</summary>
    public bool IsReceiver { get; private set; }

    /// <summary>CONT_WAVE with PLL_LOCK: an unmodulated carrier (nRF24L01+ Product Specification 1.0, App. C p78).</summary>
    public bool IsCarrier { get; private set; }

    /// <summary>
    /// False where the data sheet states no working: address width 00 and channels above 125. The model then neither sends nor hears.
    /// </summary>
    public bool IsOnAir { get; private set; }

    public int Channel { get; private set; }
    public AirRate Rate { get; private set; }
    public int PowerDbm { get; private set; }
    public PacketShape Shape { get; private set; }
    public ulong SendAddress { get; private set; }

    /// <summary>ARD in ticks.</summary>
    public long RetryDelay { get; private set; }

    /// <summary>ARC.</summary>
    public int Retries { get; private set; }

    /// <summary>EN_ACK_PAY in effect.</summary>
    public bool HasAckPayloads { get; private set; }

    /// <summary>EN_DYN_ACK in effect.</summary>
    public bool HasNoAck { get; private set; }

    /// <summary>EN_DPL in effect.</summary>
    public bool HasDynamicLength { get; private set; }

    public ulong Address(int pipe) => addresses[pipe];

    /// <summary>RX_PW of a pipe.</summary>
    public int StaticLength(int pipe) => lengths[pipe];

    /// <summary>EN_DPL, DPL_Pn and ENAA_Pn together (nRF24L01+ Product Specification 1.0, Table 28 p62-63).</summary>
    public bool IsDynamic(int pipe) => ((dynamicPipes >> pipe) & 1) != 0;

    /// <summary>ENAA_Pn.</summary>
    public bool Acknowledges(int pipe) => ((ackPipes >> pipe) & 1) != 0;

    /// <summary>ERX_Pn.</summary>
    public bool IsOpen(int pipe) => ((openPipes >> pipe) & 1) != 0;

    /// <summary>
    /// The lowest open pipe with an address, or -1. RX_PW 0 switches a pipe of static length off (Table 28 p60); no packet has more
    /// than 32 bytes.
    /// </summary>
    public int Match(ulong address)
    {
        for (var pipe = 0; pipe < Pipes; pipe++)
        {
            if (addresses[pipe] == address && IsOpen(pipe) && (IsDynamic(pipe) || lengths[pipe] is > 0 and <= PayloadFifo.LevelBytes))
                return pipe;
        }
        return -1;
    }

    public void Refresh(RegisterMap registers, ChipVariant variant, bool isUnlocked)
    {
        var config = registers[Register.Config];
        var setup = registers[Register.RfSetup];
        var feature = isUnlocked ? registers[Register.Feature] : 0;
        IsPowered = (config & 0x02) != 0;
        IsReceiver = (config & 0x01) != 0;
        IsCarrier = (setup & 0x90) == 0x90;
        Channel = registers[Register.RfCh];
        // RF_DR_HIGH does not count while RF_DR_LOW is 1 (Table 28 p58).
        Rate = (setup & 0x20) != 0 ? AirRate.Kbps250 : (setup & 0x08) != 0 ? AirRate.Mbps2 : AirRate.Mbps1;
        PowerDbm = variant.PowerDbm[setup & 0x07];
        ackPipes = registers[Register.EnAa];
        openPipes = registers[Register.EnRxAddr];
        Retries = registers[Register.SetupRetr] & 0x0F;
        RetryDelay = ((registers[Register.SetupRetr] >> 4) + 1) * Ticks.RetryStep;
        HasDynamicLength = (feature & 0x04) != 0;
        HasAckPayloads = (feature & 0x02) != 0;
        HasNoAck = (feature & 0x01) != 0;
        dynamicPipes = HasDynamicLength ? registers[Register.DynPd] & ackPipes : 0;

        var width = registers[Register.SetupAw] + 2;
        IsOnAir = width > 2 && Channel <= LastChannel;
        // EN_CRC is forced while a pipe acknowledges (Table 28 p57); plain ShockBurst needs EN_AA 0 and ARC 0 (7.9 p49).
        var hasCrc = (config & 0x08) != 0 || ackPipes != 0;
        Shape = new(Math.Max(width, 3), ackPipes != 0 || Retries != 0, hasCrc ? (config & 0x04) != 0 ? 2 : 1 : 0);
        RefreshAddresses(registers);
    }

    private void RefreshAddresses(RegisterMap registers)
    {
        var width = Shape.AddressBytes;
        SendAddress = registers.Address(Register.TxAddr, width);
        addresses[0] = registers.Address(Register.RxAddrP0, width);
        addresses[1] = registers.Address(Register.RxAddrP1, width);
        for (var pipe = 2; pipe < Pipes; pipe++)
            addresses[pipe] = (addresses[1] & ~0xFFUL) | registers[(byte)(Register.RxAddrP0 + pipe)];
        for (var pipe = 0; pipe < Pipes; pipe++)
            lengths[pipe] = registers[(byte)(Register.RxPwP0 + pipe)];
    }
}
