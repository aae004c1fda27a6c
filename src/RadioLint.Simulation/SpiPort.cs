namespace RadioLint.Simulation;

/// <summary>Commands as they come over SPI; they take effect when CSN rises (nRF24L01+ Product Specification 1.0, 8.3 p50-51).</summary>
internal sealed class SpiPort(Chip chip)
{
    private readonly byte[] data = new byte[PayloadFifo.LevelBytes];
    private readonly RegisterPort registers = new(chip);
    private bool isSelected;
    private bool hasCommand;
    private byte command;
    private int count;

    public void Renew()
    {
        isSelected = false;
        hasCommand = false;
    }

    public void Select(bool level)
    {
        if (level == !isSelected)
            return;
        isSelected = !level;
        if (isSelected)
        {
            hasCommand = false;
            count = 0;
        }
        else if (hasCommand)
        {
            Execute();
        }
    }

    /// <summary>STATUS for the command byte, then data. Without CSN the chip does not drive MISO; the model gives 0.</summary>
    public byte Exchange(byte mosi)
    {
        if (!isSelected)
            return 0;
        if (chip.State == ChipState.Reset)
        {
            if (count++ == 0)
                chip.Note(ViolationKind.DuringReset, mosi, 0);
            return 0;
        }
        if (!hasCommand)
        {
            hasCommand = true;
            command = mosi;
            count = 0;
            return chip.Status;
        }
        var miso = Answer(count);
        if (count < data.Length)
            data[count] = mosi;
        count++;
        return miso;
    }

    /// <summary>A byte of a register, least significant first.</summary>
    public byte Value(byte register, int at) => registers.Value(register, at);

    private byte Answer(int at)
    {
        if ((command & 0xE0) == Command.RRegister)
            return registers.Value((byte)(command & 0x1F), at);
        if (chip.RxFifo.IsEmpty)
            return 0;
        if (command == Command.RRxPayload && at < chip.RxFifo.Info(0).Length)
            return chip.RxFifo.Payload(0)[at];
        return command == Command.RRxPlWid && at == 0 && chip.IsUnlocked ? (byte)chip.RxFifo.Info(0).Length : (byte)0;
    }

    private void Execute()
    {
        switch (command)
        {
            case Command.RRxPayload:
                if (count > 0 && !chip.RxFifo.IsEmpty)
                    chip.RxFifo.RemoveAt(0);
                break;
            case Command.WTxPayload:
                Load(PayloadInfo.NoPipe, false);
                break;
            case Command.WTxPayloadNoAck:
                if (IsOn(chip.Settings.HasNoAck))
                    Load(PayloadInfo.NoPipe, true);
                break;
            case Command.RRxPlWid:
                IsOn(chip.Settings.HasDynamicLength);
                break;
            case Command.FlushTx:
                chip.TxFifo.Clear();
                chip.Sender.OnFlush();
                chip.Responder.OnFlush();
                break;
            case Command.FlushRx:
                // An acknowledgement would not be completed (Table 20 p51).
                if (chip.State is ChipState.ReplySettling or ChipState.Reply)
                    chip.Note(ViolationKind.CommandAtWrongTime, command, 0);
                chip.RxFifo.Clear();
                break;
            case Command.ReuseTxPl:
                if (chip.State is ChipState.Tx || (chip.Read(Register.RfSetup) & 0x80) != 0)
                    chip.Note(ViolationKind.CommandAtWrongTime, command, 0);
                chip.Sender.Reuse();
                break;
            case Command.Activate when chip.Variant.NeedsUnlock:
                Activate();
                break;
            case Command.Nop:
                break;
            default:
                Others();
                break;
        }
    }

    private void Others()
    {
        if ((command & 0xE0) == Command.WRegister)
            registers.Write((byte)(command & 0x1F), data.AsSpan(0, Math.Min(count, data.Length)), count);
        else if ((command & 0xF8) == Command.WAckPayload)
            LoadAck(command & 0x07);
        else if ((command & 0xE0) != Command.RRegister)
            chip.Note(ViolationKind.UnknownCommand, command, count);
    }

    private void LoadAck(int pipe)
    {
        if (pipe >= RadioSettings.Pipes)
            chip.Note(ViolationKind.IllegalCode, command, pipe);
        else if (IsOn(chip.Settings.HasAckPayloads))
            Load(pipe, false);
    }

    // Without its bit a command does nothing: a choice, the data sheet does not say.
    private bool IsOn(bool feature)
    {
        if (!feature)
            chip.Note(ViolationKind.FeatureOff, command, 0);
        return feature;
    }

    // Of a payload that is too long the first 32 bytes are kept, and one for a full FIFO is dropped: choices, the data sheet is silent.
    private void Load(int pipe, bool noAck)
    {
        if (count is 0 or > PayloadFifo.LevelBytes)
            chip.Note(ViolationKind.PayloadLength, command, count);
        if (count == 0)
            return;
        if (chip.TxFifo.IsFull)
        {
            chip.Note(ViolationKind.FifoFull, command, count);
            return;
        }
        var pid = pipe == PayloadInfo.NoPipe ? chip.Sender.NextPid() : 0;
        chip.TxFifo.Push(data.AsSpan(0, Math.Min(count, PayloadFifo.LevelBytes)), pipe, pid, noAck);
        chip.Sender.OnUpload();
        chip.Modes.Evaluate();
    }

    private void Activate()
    {
        if (!chip.Modes.IsQuiet)
            chip.Note(ViolationKind.CommandAtWrongTime, command, 0);
        if (count != 1 || data[0] != Command.ActivateKey)
        {
            chip.Note(ViolationKind.UnknownCommand, command, count == 0 ? 0 : data[0]);
            return;
        }
        chip.IsUnlocked = !chip.IsUnlocked;
        chip.Apply();
    }
}
