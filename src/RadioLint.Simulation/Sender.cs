namespace RadioLint.Simulation;

/// <summary>
/// The sending side: one packet and its repeats (nRF24L01+ Product Specification 1.0, 7.4.2 p33-34). With ENAA_P0 a sender waits for
/// an acknowledgement even when ARC is 0, and then sets MAX_RT: a choice, the text does not say.
/// </summary>
internal sealed class Sender(Chip chip)
{
    private readonly byte[] last = new byte[PayloadFifo.LevelBytes];
    private PayloadInfo lastInfo;
    private bool hasLast;
    private bool isArmed;
    private bool needsToggle;
    private bool isHeadGone;
    private PayloadInfo current;
    private Transmission? onAir;
    private long sentAt;
    private long transmittingSince;

    /// <summary>FIFO_STATUS.TX_REUSE.</summary>
    public bool IsReusing { get; private set; }

    /// <summary>OBSERVE_TX.ARC_CNT: repeats of the current packet (Table 28 p59).</summary>
    public int Repeats { get; private set; }

    /// <summary>OBSERVE_TX.PLOS_CNT: packets given up, up to 15 (App. A p75, Table 28 p59).</summary>
    public int Lost { get; set; }

    /// <summary>True while the packet that is prepared is a repeat.</summary>
    public bool IsRepeat { get; private set; }

    /// <summary>True when CE high would start a packet. MAX_RT must be cleared first (Table 28 p59) and CE toggled (7.8.7 p48).</summary>
    public bool CanStart => (chip.Flags & StatusFlags.MaxRt) == 0 && !needsToggle
        && (IsReusing ? isArmed && (hasLast || !chip.TxFifo.IsEmpty) : !chip.TxFifo.IsEmpty);

    /// <summary>CE rose: with REUSE_TX_PL each pulse sends once (7.4.2 p34).</summary>
    public void OnToggle()
    {
        needsToggle = false;
        isArmed = true;
    }

    public void OnUpload() => IsReusing = false;

    public void OnFlush()
    {
        IsReusing = false;
        hasLast = false;
        needsToggle = false;
        isHeadGone = true;
    }

    public void Reuse() => IsReusing = true;

    public void OnSettled()
    {
        transmittingSince = chip.Air.Now;
        if (chip.Settings.IsCarrier && !chip.IsEnabled)
            chip.Modes.FromStandby();
        else if (chip.Settings.IsCarrier)
            SendCarrier();
        else
            Transmit();
    }

    public void OnSent()
    {
        onAir = null;
        if (chip.Air.Now - transmittingSince > Ticks.LongestTransmission)
            chip.Note(ViolationKind.LongTransmission, 0, (int)Ticks.ToMicroseconds(chip.Air.Now - transmittingSince));
        if (chip.Settings.Acknowledges(0) && !current.NoAck)
        {
            sentAt = chip.Air.Now;
            chip.Go(ChipState.AckSettling, Ticks.Settle);
            return;
        }
        Delivered();
        // Without acknowledgement it stays in TX while there is more (6.1.5 p23); a NO_ACK packet leads to standby (7.3.3.3 p29).
        if (!current.NoAck && chip.IsEnabled && !chip.Settings.IsReceiver && CanStart)
            Transmit();
        else
            chip.Modes.FromStandby();
    }

    public void Listen()
    {
        chip.Ear.Open();
        var window = Math.Min(chip.Air.Now + chip.Settings.Rate.AckWindow(), DelayEnd);
        chip.Go(ChipState.AckListening, window - chip.Air.Now);
    }

    /// <summary>The window is over; an address that is complete keeps it open until the retry delay ends (Table 28 note b p63).</summary>
    public void OnWindowEnd()
    {
        if (chip.Ear.IsLocked && chip.Air.Now < DelayEnd)
            chip.Go(ChipState.AckListening, DelayEnd - chip.Air.Now);
        else
            Rest();
    }

    /// <summary>A packet has come to its end, good or not: listening is over (7.4.2 p34).</summary>
    public void OnAnswer(bool isGood, ReadOnlySpan<byte> payload)
    {
        if (!isGood)
        {
            Rest();
            return;
        }
        chip.Ear.Close();
        // A full RX FIFO loses the payload, not the acknowledgement: a choice, the data sheet is silent.
        if (payload.Length > 0 && chip.Settings.HasAckPayloads && !chip.RxFifo.IsFull)
        {
            chip.RxFifo.Push(payload, 0, 0, false);
            chip.Flags |= StatusFlags.RxDr;
        }
        Delivered();
        chip.Modes.FromStandby();
    }

    public void OnDelayOver()
    {
        if (Repeats < chip.Settings.Retries && (hasLast && IsReusing || !chip.TxFifo.IsEmpty))
        {
            Repeats++;
            IsRepeat = true;
            if (chip.RetryReading == RetryReading.Text)
            {
                transmittingSince = chip.Air.Now;
                Transmit();
            }
            else
            {
                chip.Go(ChipState.TxSettling, Ticks.Settle);
            }
            return;
        }
        IsRepeat = false;
        if (!chip.TxFifo.IsEmpty || IsReusing)
        {
            chip.Flags |= StatusFlags.MaxRt;
            Lost = Math.Min(Lost + 1, 15);
            needsToggle = true;
        }
        chip.Modes.FromStandby();
    }

    /// <summary>Stops what is on air in mid-packet.</summary>
    public void Cut()
    {
        if (onAir is not null)
            onAir.End = Math.Min(onAir.End, chip.Air.Now);
        onAir = null;
    }

    public void Abandon() => IsRepeat = false;

    /// <summary>An acknowledgement of the receiving side is on air.</summary>
    public void Hold(Transmission packet) => onAir = packet;

    /// <summary>It has ended by itself.</summary>
    public void Release() => onAir = null;

    public void Renew()
    {
        hasLast = false;
        isArmed = false;
        needsToggle = false;
        isHeadGone = false;
        current = default;
        onAir = null;
        IsReusing = false;
        IsRepeat = false;
        Repeats = 0;
        Lost = 0;
        Pid = 0;
    }

    /// <summary>Identity of the payload that came last over SPI; the first has 1 (7.3.3.2 p29, Figure 21 p47).</summary>
    public int Pid { get; private set; }

    public int NextPid() => Pid = (Pid + 1) & 3;

    private long DelayEnd => sentAt + chip.Settings.RetryDelay;

    private void Transmit()
    {
        if (chip.TxFifo.IsEmpty && !(IsReusing && hasLast))
        {
            IsRepeat = false;
            chip.Modes.FromStandby();
            return;
        }
        if (!IsRepeat)
            Repeats = 0;
        IsRepeat = false;
        isHeadGone = chip.TxFifo.IsEmpty;
        current = isHeadGone ? lastInfo : chip.TxFifo.Info(0);
        var payload = isHeadGone ? last.AsSpan(0, lastInfo.Length) : chip.TxFifo.Payload(0);
        var settings = chip.Settings;
        var control = new PacketControl(settings.IsDynamic(0) ? current.Length : PacketControl.StaticLength, current.Pid, current.NoAck);
        onAir = chip.Responder.Put(settings.SendAddress, control, payload, false);
        chip.Go(ChipState.Tx, onAir.End - chip.Air.Now);
    }

    private void SendCarrier()
    {
        onAir = chip.Air.Prepare(chip);
        onAir.IsCarrier = true;
        chip.Go(ChipState.Carrier, Ticks.Never);
        chip.Air.Launch(onAir);
    }

    private void Rest()
    {
        chip.Ear.Close();
        if (chip.Air.Now >= DelayEnd)
            OnDelayOver();
        else
            chip.Go(ChipState.RetryWait, DelayEnd - chip.Air.Now);
    }

    private void Delivered()
    {
        chip.Flags |= StatusFlags.TxDs;
        isArmed = false;
        if (isHeadGone)
            return;
        lastInfo = current;
        hasLast = true;
        chip.TxFifo.Payload(0).CopyTo(last);
        if (!IsReusing)
            chip.TxFifo.RemoveAt(0);
    }
}
