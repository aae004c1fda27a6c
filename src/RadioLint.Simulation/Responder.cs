namespace RadioLint.Simulation;

/// <summary>
/// The receiving side: takes packets, drops copies, acknowledges (nRF24L01+ Product Specification 1.0, 7.3.3.2 p29, 7.4.1 p33). What was
/// received last is kept for each pipe: a choice, the data sheet speaks of the previous packet alone.
/// </summary>
internal sealed class Responder(Chip chip)
{
    private const int Nothing = -1;
    private readonly int[] lastSeen = new int[RadioSettings.Pipes];
    private readonly bool[] isPayloadOut = new bool[RadioSettings.Pipes];
    private int pipe;
    private int pid;

    public void Renew()
    {
        Array.Fill(lastSeen, Nothing);
        Array.Clear(isPayloadOut);
    }

    /// <summary>The TX FIFO was emptied: no payload waits for its confirmation.</summary>
    public void OnFlush() => Array.Clear(isPayloadOut);

    public void OnPacket(int to, PacketControl control, ReadOnlySpan<byte> payload, int checksum)
    {
        // Only acknowledgements are empty (7.3.3.1 p29). A full FIFO takes nothing, copies included, and nothing is
        // acknowledged (from memory of the flow chart).
        if (payload.IsEmpty || chip.RxFifo.IsFull)
            return;
        if (!chip.Settings.Acknowledges(to))
        {
            Take(to, payload);
            return;
        }
        var seen = (checksum << 2) | control.Pid;
        if (lastSeen[to] != seen)
        {
            lastSeen[to] = seen;
            Confirm(to);
            Take(to, payload);
        }
        if (control.NoAck)
            return;
        pipe = to;
        pid = control.Pid;
        chip.Ear.Close();
        chip.Go(ChipState.ReplySettling, Ticks.Settle);
    }

    /// <summary>
    /// Sends the acknowledgement, with a payload where one waits for the pipe. Needs EN_ACK_PAY and dynamic length on the pipe and on
    /// pipe 0 (7.4.1 p33, Table 28 note d p63). Its identity repeats that of the packet: a choice, the data sheet is silent.
    /// </summary>
    public void Transmit()
    {
        var settings = chip.Settings;
        var waiting = settings.HasAckPayloads && settings.IsDynamic(pipe) && settings.IsDynamic(0) ? chip.TxFifo.IndexOf(pipe) : -1;
        var payload = waiting < 0 ? default : chip.TxFifo.Payload(waiting);
        isPayloadOut[pipe] = waiting >= 0;
        var packet = Put(settings.Address(pipe), new(payload.Length, pid, false), payload, true);
        chip.Sender.Hold(packet);
        chip.Go(ChipState.Reply, packet.End - chip.Air.Now);
    }

    /// <summary>Puts a packet on air with the chip's settings; where it cannot be on air it only takes its time.</summary>
    public Transmission Put(ulong address, PacketControl control, ReadOnlySpan<byte> payload, bool isAck)
    {
        var packet = chip.Air.Prepare(chip);
        packet.IsAck = isAck;
        packet.Frame.Build(chip.Settings.Shape, address, control, payload);
        packet.End = packet.Start + ((long)packet.Frame.Length * packet.Rate.BitTicks());
        if (chip.Settings.IsOnAir)
            chip.Air.Launch(packet);
        return packet;
    }

    // The payload of the last acknowledgement has arrived when the next new packet comes (7.8.4 p47).
    private void Confirm(int to)
    {
        if (!isPayloadOut[to])
            return;
        isPayloadOut[to] = false;
        var index = chip.TxFifo.IndexOf(to);
        if (index >= 0)
            chip.TxFifo.RemoveAt(index);
        chip.Flags |= StatusFlags.TxDs;
    }

    private void Take(int from, ReadOnlySpan<byte> payload)
    {
        chip.RxFifo.Push(payload, from, 0, false);
        chip.Flags |= StatusFlags.RxDr;
    }
}
