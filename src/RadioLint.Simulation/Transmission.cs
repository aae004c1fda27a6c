namespace RadioLint.Simulation;

/// <summary>One packet, or a carrier, on its way.</summary>
public sealed class Transmission
{
    internal Transmission()
    {
    }

    /// <summary>The sender's number on the air.</summary>
    public int Sender { get; internal set; }

    public int Channel { get; internal set; }
    public AirRate Rate { get; internal set; }
    public int PowerDbm { get; internal set; }

    /// <summary>First bit.</summary>
    public long Start { get; internal set; }

    /// <summary>The tick after the last bit; earlier when the sender was powered down meanwhile.</summary>
    public long End { get; internal set; }

    /// <summary>True for an unmodulated carrier.</summary>
    public bool IsCarrier { get; internal set; }

    /// <summary>True for an acknowledgement.</summary>
    public bool IsAck { get; internal set; }

    /// <summary>Its bits.</summary>
    public Frame Frame { get; } = new();

    /// <summary>Ticks during which it is on air together with a span of time.</summary>
    public long Overlap(long from, long to) => Math.Max(0, Math.Min(End, to) - Math.Max(Start, from));
}
