namespace RadioLint.Simulation;

/// <summary>The state diagram (nRF24L01+ Product Specification 1.0, Figure 4 p22, Table 15 p24).</summary>
internal sealed class Modes(Chip chip)
{
    /// <summary>True where the data sheet allows W_REGISTER: power down and standby (Table 20 p51).</summary>
    public bool IsQuiet => chip.State is ChipState.PowerDown or ChipState.StartUp or ChipState.Standby1 or ChipState.Standby2 or ChipState.RetryWait;

    /// <summary>Looks at CE, PWR_UP and PRIM_RX and moves on. A packet on air is finished first, and so is a transaction.</summary>
    public void Evaluate()
    {
        var settings = chip.Settings;
        if (chip.State == ChipState.Reset)
            return;
        if (!settings.IsPowered)
        {
            PowerDown();
            return;
        }
        switch (chip.State)
        {
            case ChipState.PowerDown:
                chip.Go(ChipState.StartUp, chip.Variant.StartTicks);
                break;
            case ChipState.Standby1 or ChipState.Standby2:
                FromStandby();
                break;
            // A receiver that loses CE rests at once; an acknowledgement that is not yet on air is dropped (6.1.4 p23 says no more).
            case ChipState.RxSettling or ChipState.Rx or ChipState.ReplySettling when !chip.IsEnabled || !settings.IsReceiver:
                chip.Ear.Close();
                FromStandby();
                break;
            case ChipState.TxSettling when settings.IsReceiver:
                chip.Sender.Abandon();
                FromStandby();
                break;
            case ChipState.Carrier when !chip.IsEnabled || settings.IsReceiver || !settings.IsCarrier:
                chip.Sender.Cut();
                FromStandby();
                break;
            default:
                break;
        }
    }

    /// <summary>CE fell before a packet had to go: none goes.</summary>
    public void CancelStart()
    {
        if (chip.State == ChipState.TxSettling && !chip.Sender.IsRepeat)
            chip.Go(ChipState.Standby1, Ticks.Never);
    }

    /// <summary>Where standby leads with the pins and registers as they are.</summary>
    public void FromStandby()
    {
        if (!chip.IsEnabled)
            chip.Go(ChipState.Standby1, Ticks.Never);
        else if (chip.Settings.IsReceiver)
            chip.Go(ChipState.RxSettling, Ticks.Settle);
        else if (chip.Settings.IsCarrier || chip.Sender.CanStart)
            chip.Go(ChipState.TxSettling, Ticks.Settle);
        else
            chip.Go(ChipState.Standby2, Ticks.Never);
    }

    public void OnTimer()
    {
        switch (chip.State)
        {
            case ChipState.Reset:
                chip.State = ChipState.PowerDown;
                Evaluate();
                break;
            case ChipState.StartUp:
                FromStandby();
                break;
            case ChipState.TxSettling:
                chip.Sender.OnSettled();
                break;
            case ChipState.Tx:
                chip.Sender.OnSent();
                break;
            case ChipState.AckSettling:
                chip.Sender.Listen();
                break;
            case ChipState.AckListening:
                chip.Sender.OnWindowEnd();
                break;
            case ChipState.RetryWait:
                chip.Sender.OnDelayOver();
                break;
            case ChipState.RxSettling:
                chip.Go(ChipState.Rx, Ticks.Never);
                chip.Ear.Open();
                break;
            case ChipState.ReplySettling:
                chip.Responder.Transmit();
                break;
            case ChipState.Reply:
                chip.Sender.Release();
                FromStandby();
                break;
            default:
                throw new InvalidOperationException($"{chip.State} waits for nothing");
        }
    }

    private void PowerDown()
    {
        if (chip.State == ChipState.PowerDown)
            return;
        chip.Ear.Close();
        chip.Sender.Cut();
        chip.Sender.Abandon();
        chip.Go(ChipState.PowerDown, Ticks.Never);
    }
}
