namespace RadioLint.Simulation;

/// <summary>What a chip is doing; modes as in nRF24L01+ Product Specification 1.0, 6.1 p21-24, Figure 4 p22.</summary>
public enum ChipState
{
    /// <summary>Power-on reset; SPI is not answered yet.</summary>
    Reset,

    PowerDown,

    /// <summary>The crystal starts.</summary>
    StartUp,

    Standby1,

    /// <summary>CE high, sender, nothing to send.</summary>
    Standby2,

    TxSettling,
    Tx,

    /// <summary>An unmodulated carrier for tests.</summary>
    Carrier,

    /// <summary>A sender on its way to listening.</summary>
    AckSettling,

    /// <summary>A sender listens.</summary>
    AckListening,

    /// <summary>The rest of the retry delay; in mode standby-II or standby-I, part by part.</summary>
    RetryWait,

    RxSettling,
    Rx,

    /// <summary>A receiver on its way to acknowledging.</summary>
    ReplySettling,

    /// <summary>A receiver sends an acknowledgement.</summary>
    Reply,
}
