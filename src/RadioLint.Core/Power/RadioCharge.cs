using RadioLint.Hardware;
using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Units;

namespace RadioLint.Power;

/// <summary>Charge that a radio takes to send, in nanocoulombs (mA x us): the sum of current x time over its states.</summary>
public static class RadioCharge
{
    public static decimal Of(Current draws, Duration lasts) => (decimal)draws.Nanoamperes * lasts.Nanoseconds / 1_000_000_000;

    /// <summary>Settling and a packet (nRF24L01+ Product Specification 1.0, Table 4 for the currents, Table 16 for the settling).</summary>
    public static decimal Packet(RadioCurrents currents, Current sending, Duration packet) =>
        Of(currents.SettleTransmit.Value, OnAir.Settling) + Of(sending, packet);

    /// <summary>Settling and an acknowledgement that arrives.</summary>
    public static decimal Acknowledgement(RadioCurrents currents, Current receiving, Duration acknowledgement) =>
        Of(currents.SettleReceive.Value, OnAir.Settling) + Of(receiving, acknowledgement);

    /// <summary>An acknowledgement that does not come: listening for the window of 7.4.2, then CE high with nothing to send until the delay is over.</summary>
    public static decimal Waiting(RadioCurrents currents, Current receiving, Duration window, Duration retryDelay)
    {
        var left = retryDelay > OnAir.Settling ? retryDelay - OnAir.Settling : new(0);
        var listens = left < window ? left : window;
        return Of(currents.SettleReceive.Value, OnAir.Settling) + Of(receiving, listens) + Of(currents.Standby2.Value, left - listens);
    }

    /// <summary>
    /// What one delivery takes on average when a share of the attempts is lost, each for itself: with p lost and n repetitions,
    /// p (1 - p^(n+1)) / (1 - p) attempts fail and 1 - p^(n+1) end well. Null while part, power, rate, width or retries are not known.
    /// </summary>
    public static decimal? Delivery(NodePlan plan, Hop hop, Share lost)
    {
        var node = plan.Node;
        if (node is not { Part: { } part, Air: { ChosenRate: { } rate, AddressWidth.Value: var width } } || part.Rate(rate) is not { } at || plan.CheckBytes is not { } check
            || PeakCurrent.Sending(node) is not { } sending || PeakCurrent.Receiving(node) is not { } receiving)
        {
            return null;
        }
        var packet = Packet(part.Currents, sending, OnAir.Packet(rate, width, Math.Min(32, RetryPlanner.SentBytes(hop)), check, plan.HasControlField));
        if (!hop.IsAcknowledged)
            return packet;
        if (plan.Retry is not { } retry)
            return null;
        var answered = packet + Acknowledgement(part.Currents, receiving, OnAir.Packet(rate, width, RetryPlanner.ReturnedBytes(hop), check));
        var unanswered = packet + Waiting(part.Currents, receiving, at.AckWindow.Value, retry.Delay);
        var (share, allLost) = (Math.Min(1_000_000, lost.Millionths) / 1_000_000m, 1m);
        var failed = 0m;
        for (var attempt = 0; attempt <= retry.Limit; attempt++)
        {
            allLost *= share;
            failed += allLost;
        }
        return (failed * unanswered) + ((1 - allLost) * answered);
    }
}
