namespace RadioLint.Simulation;

/// <summary>
/// The receiving half of a chip: finds an address in what is on air, cuts the packet out by the chip's own settings and checks it.
/// The preamble must sit directly before the address, and the whole preamble must fall into the time of listening.
/// </summary>
internal sealed class Ear(Chip chip)
{
    private readonly byte[] scratch = new byte[Frame.Capacity];
    private readonly byte[] payload = new byte[PayloadFifo.LevelBytes];
    private Transmission? heard;
    private double power;
    private bool isLocked;
    private int pipe;
    private int length;
    private bool isDetectorHeld;

    public bool IsOpen { get; private set; }

    /// <summary>First moment of listening.</summary>
    public long Since { get; private set; }

    /// <summary>When an address or a packet is complete.</summary>
    public long Due { get; private set; } = Ticks.Never;

    /// <summary>True while a packet with a fitting address is coming in.</summary>
    public bool IsLocked => isLocked;

    /// <summary>RPD as it was held when a packet arrived or listening ended.</summary>
    public bool Detected { get; private set; }

    /// <summary>RPD as a program reads it (nRF24L01+ Product Specification 1.0, 6.4 p25).</summary>
    public bool IsDetected => IsOpen && !isDetectorHeld ? chip.Air.Reach.IsDetected(chip, Since) : Detected;

    public void Open()
    {
        IsOpen = true;
        Since = chip.Air.Now;
        isDetectorHeld = false;
        Drop();
        foreach (var packet in chip.Air.Past)
        {
            if (packet.Start == Since && packet.Sender != chip.Number)
                Hear(packet);
        }
    }

    public void Close()
    {
        if (!IsOpen)
            return;
        Hold();
        IsOpen = false;
        Drop();
    }

    public void Renew()
    {
        IsOpen = false;
        Detected = false;
        Drop();
    }

    /// <summary>After a change of settings in the middle of a packet nothing of it is left.</summary>
    public void Retune()
    {
        if (heard is not null)
            Drop();
    }

    /// <summary>A packet starts. True when it changes what falls due.</summary>
    public bool Hear(Transmission packet)
    {
        var settings = chip.Settings;
        if (!IsOpen || isLocked || packet.IsCarrier || packet.Channel != settings.Channel || packet.Rate != settings.Rate || !settings.IsOnAir)
            return false;
        var dbm = chip.Air.Reach.Power(packet, chip);
        // Of two that overlap, the stronger may win; the weaker never does.
        if (!Reach.IsReceivable(dbm, chip) || (heard is not null && power >= dbm))
            return false;
        heard = packet;
        power = dbm;
        Due = packet.Start + ((long)settings.Shape.ToAddressEnd * packet.Rate.BitTicks());
        return true;
    }

    public void OnDue()
    {
        Due = Ticks.Never;
        if (isLocked)
            Finish();
        else if (!Lock())
            heard = null;
    }

    private void Drop()
    {
        heard = null;
        isLocked = false;
        Due = Ticks.Never;
    }

    // 6.4 p25: held when a packet is received, or when listening ends.
    private void Hold()
    {
        if (isDetectorHeld)
            return;
        Detected = chip.Air.Reach.IsDetected(chip, Since);
        isDetectorHeld = true;
    }

    private bool Lock()
    {
        var packet = heard!;
        var now = chip.Air.Now;
        var shape = chip.Settings.Shape;
        if (packet.End < now || chip.Air.Reach.DisturbedFrom(packet, chip, now) != Ticks.Never)
            return false;
        pipe = chip.Accepts(BitReader.Address(packet.Frame.Bytes, shape.AddressBytes));
        if (pipe < 0)
            return false;
        length = chip.ExpectedLength(pipe);
        if (length < 0)
        {
            if (packet.Frame.Length < shape.PayloadAt)
                return false;
            length = BitReader.Bits(packet.Frame.Bytes, shape.ToAddressEnd, 6);
            // "Don't care" above 32 (7.3.3.1 p29): no such packet is taken.
            if (length > PayloadFifo.LevelBytes)
                return false;
        }
        isLocked = true;
        Due = packet.Start + ((long)shape.Total(length) * packet.Rate.BitTicks());
        return true;
    }

    private void Finish()
    {
        var packet = heard!;
        var shape = chip.Settings.Shape;
        var stream = Received(packet, shape.Total(length));
        var checksum = shape.CrcBytes == 0 ? 0 : BitReader.Bits(stream, shape.CrcAt(length), 8 * shape.CrcBytes);
        var isGood = shape.CrcBytes == 0
            || Crc.Of(stream[1..], shape.CrcAt(length) - PacketShape.PreambleBits, shape.CrcBytes) == checksum;
        var control = shape.HasControl
            ? PacketControl.Unpack(BitReader.Bits(stream, shape.ToAddressEnd, PacketControl.Bits))
            : default;
        BitReader.Bytes(stream, shape.PayloadAt, payload.AsSpan(0, length));
        Drop();
        if (isGood)
            Hold();
        chip.OnPacket(isGood, pipe, control, payload.AsSpan(0, length), checksum);
    }

    // The bits as they come out of the receiver: as sent, noise where another signal was too strong or nothing was sent any more.
    private ReadOnlySpan<byte> Received(Transmission packet, int bits)
    {
        var air = chip.Air;
        var bit = packet.Rate.BitTicks();
        var good = Math.Min((packet.End - packet.Start) / bit, packet.Frame.Length);
        var disturbed = air.Reach.DisturbedFrom(packet, chip, air.Now);
        if (disturbed != Ticks.Never)
            good = Math.Min(good, (disturbed - packet.Start) / bit);
        var likelihood = air.BitErrors?.Likelihood(chip.Number, packet.Channel, packet.Rate, power, air.Now) ?? 0;
        if (good >= bits && likelihood <= 0)
            return packet.Frame.Bytes;
        packet.Frame.Bytes.CopyTo(scratch);
        ref var noise = ref air.Noise;
        for (var i = 0; i < bits; i++)
        {
            var mask = (byte)(0x80 >> (i & 7));
            if (i >= good ? (noise.Next() & 1) != 0 : likelihood > 0 && noise.NextFraction() < likelihood)
                scratch[i >> 3] ^= mask;
        }
        return scratch;
    }
}
