namespace RadioLint.Simulation;

/// <summary>What a program did that the data sheet does not allow; places in the nRF24L01+ Product Specification 1.0.</summary>
public enum ViolationKind
{
    /// <summary>W_REGISTER is for power down and standby only (Table 20 p51); STATUS is excepted.</summary>
    WriteWhileBusy,

    /// <summary>A reserved bit was written 1 (Table 28).</summary>
    ReservedBit,

    /// <summary>OBSERVE_TX, RPD, FIFO_STATUS (Table 28 p59-61).</summary>
    ReadOnlyRegister,

    /// <summary>0x18 to 0x1B: the chip may malfunction (9.1 p57).</summary>
    TestRegister,

    /// <summary>0x1E, 0x1F are not in the map (Table 28).</summary>
    UnmappedRegister,

    /// <summary>A code that is illegal, reserved or without a stated meaning: SETUP_AW 00, both rate bits, RX_PW above 32, RF_CH above 125.</summary>
    IllegalCode,

    /// <summary>More bytes than the register has, or none (Table 20 p51).</summary>
    RegisterLength,

    /// <summary>Payloads have 1 to 32 bytes (Table 20 p51).</summary>
    PayloadLength,

    /// <summary>A payload was written while the TX FIFO held three (8.4 p55).</summary>
    FifoFull,

    /// <summary>W_ACK_PAYLOAD, W_TX_PAYLOAD_NOACK or R_RX_PL_WID without its bit in FEATURE (Table 28 p63).</summary>
    FeatureOff,

    /// <summary>A word that is not in the command table (Table 20 p51).</summary>
    UnknownCommand,

    /// <summary>A command at a time when it is not allowed, such as FLUSH_RX while an acknowledgement is sent (Table 20 p51).</summary>
    CommandAtWrongTime,

    /// <summary>CE high for less than 10 us (Table 16 p24).</summary>
    ShortCePulse,

    /// <summary>CSN fell less than 4 us after CE rose (Table 16 p24).</summary>
    CsnAfterCe,

    /// <summary>SCK above the limit (Tables 22 to 27 p53-55).</summary>
    SpiClock,

    /// <summary>More than 4 ms in TX at one go (6.1.5 p23).</summary>
    LongTransmission,

    /// <summary>SPI before the end of the power-on reset (Table 14 p20).</summary>
    DuringReset,
}
