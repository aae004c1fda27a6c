using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>What a capacitor does for a rail while a pulse lasts, and what a source's own resistance does to it.</summary>
public static class Decoupling
{
    /// <summary>How far a rail may dip while a packet is sent: own threshold, that of the worked figures on decoupling.</summary>
    public static readonly Voltage Dip = new(100);

    /// <summary>dV = I dt / C, up to the next millivolt.</summary>
    public static Voltage DipOf(Current draws, Duration lasts, Capacitance capacitor) =>
        new(Quantity.Product(draws.Nanoamperes, lasts.Nanoseconds, capacitor.Picofarads * 1_000));

    /// <summary>C = I dt / dV, up to the next nanofarad.</summary>
    public static Capacitance Needed(Current draws, Duration lasts, Voltage dip) =>
        new(Quantity.Product(draws.Nanoamperes, lasts.Nanoseconds, dip.Millivolts * 1_000_000) * 1_000);

    /// <summary>Ohm's law, up to the next millivolt.</summary>
    public static Voltage Sag(Current draws, Resistance inner) =>
        new(Quantity.Product(draws.Nanoamperes, inner.Milliohms, 1_000_000_000));

    /// <summary>
    /// The longest stretch for which a node's radio sends: settling and its longest packet or acknowledgement (nRF24L01+ Product
    /// Specification 1.0, Tables 16 and 19). Null for one that never sends, and while rate, width or CRC are not known.
    /// </summary>
    public static Duration? LongestSending(NodePlan plan)
    {
        if (plan is not { Node.Air: { ChosenRate: { } rate, AddressWidth.Value: var width }, CheckBytes: { } check })
            return null;
        var longest = -1;
        foreach (var hop in plan.Sends)
            longest = Math.Max(longest, Math.Min(32, RetryPlanner.SentBytes(hop)));
        foreach (var hop in plan.Receives)
        {
            if (hop.IsAcknowledged)
                longest = Math.Max(longest, RetryPlanner.ReturnedBytes(hop));
        }
        return longest < 0 ? null : OnAir.Settling + OnAir.Packet(rate, width, longest, check, plan.HasControlField);
    }
}
