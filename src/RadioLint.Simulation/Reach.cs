namespace RadioLint.Simulation;

/// <summary>What of a signal is left at a receiver, and what disturbs it.</summary>
internal sealed class Reach(Air air)
{
    /// <summary>In dBm at the receiver.</summary>
    public double Power(Transmission packet, Chip at) =>
        packet.PowerDbm - air.Propagation.LossDb(packet.Sender, at.Number, packet.Channel);

    /// <summary>True when a receiver can make bits of a power (nRF24L01+ Product Specification 1.0, Table 7 p16).</summary>
    public static bool IsReceivable(double dbm, Chip at) =>
        dbm >= at.Variant.SensitivityDbm[(int)at.Settings.Rate] && dbm <= at.Variant.StrongestDbm;

    /// <summary>
    /// The first moment from which a wanted packet is not received as sent: where another signal comes closer than the table of
    /// carrier to interferer allows (Tables 8 and 9 p16-17); <see cref="Ticks.Never"/> when all is well up to a moment.
    /// </summary>
    public long DisturbedFrom(Transmission wanted, Chip at, long to)
    {
        if (air.Past.Count == 1 && air.Foreign.Count == 0)
            return Ticks.Never;
        var first = Ticks.Never;
        var power = Power(wanted, at);
        foreach (var other in air.Past)
        {
            if (ReferenceEquals(other, wanted) || other.Overlap(wanted.Start, to) == 0)
                continue;
            var needed = at.Variant.OwnKind.Needed(wanted.Rate, Math.Abs(other.Channel - wanted.Channel));
            if (power - Power(other, at) < needed)
                first = Math.Min(first, Math.Max(other.Start, wanted.Start));
        }
        foreach (var other in air.Foreign)
        {
            if (Math.Min(other.To, to) <= Math.Max(other.From, wanted.Start))
                continue;
            var needed = at.Variant.Blocker.Needed(wanted.Rate, Math.Abs(other.Channel - wanted.Channel));
            if (power - other.Dbm < needed)
                first = Math.Min(first, Math.Max(other.From, wanted.Start));
        }
        return first;
    }

    /// <summary>
    /// The received power detector: 1 when a signal in the channel is above the level and has been there long enough while listening
    /// (nRF24L01+ Product Specification 1.0, 6.4 p25).
    /// </summary>
    public bool IsDetected(Chip at, long since)
    {
        var now = air.Now;
        var lasting = at.Variant.DetectorTicks;
        foreach (var packet in air.Past)
        {
            if (packet.Channel == at.Settings.Channel && packet.Sender != at.Number && packet.End >= now
                && packet.Overlap(since, now) >= lasting && Power(packet, at) > at.Variant.DetectorDbm)
                return true;
        }
        foreach (var other in air.Foreign)
        {
            if (other.Channel == at.Settings.Channel && other.To >= now && now - Math.Max(other.From, since) >= lasting
                && other.Dbm > at.Variant.DetectorDbm)
                return true;
        }
        return false;
    }
}
