using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Units;

namespace RadioLint.Rules.Links;

/// <summary>How long a hop's packet keeps the air busy.</summary>
internal static class Exchange
{
    /// <summary>True when all that the times below depend on was read.</summary>
    public static bool IsKnown(Hop hop) => hop is { Link.Payload.HasKnownSize: true, Sender.Air: { ChosenRate: not null, AddressWidth: not null, Crc: not null } };

    /// <summary>Settling, the packet and, if it is acknowledged, settling once more and the acknowledgement.</summary>
    public static Duration Once(RadioPlan plan, Hop hop) => OnAir.Settling + Packet(plan, hop) + (hop.IsAcknowledged
        ? OnAir.AcknowledgeArrives(hop.Sender.Air.ChosenRate!.Value, hop.Sender.Air.AddressWidth!.Value, CheckBytes(hop), RetryPlanner.ReturnedBytes(hop))
        : new(0));

    /// <summary>From the first packet to giving up: every repetition, with its delay (OnAir.GivingUp without the upload over SPI).</summary>
    public static Duration Span(RadioPlan plan, Hop hop, RetryPlan retry) => (OnAir.Settling + Packet(plan, hop) + retry.Delay) * (retry.Limit + 1);

    private static Duration Packet(RadioPlan plan, Hop hop) => OnAir.Packet(
        hop.Sender.Air.ChosenRate!.Value, hop.Sender.Air.AddressWidth!.Value, RetryPlanner.SentBytes(hop), CheckBytes(hop), plan.Of(hop.Sender).HasControlField);

    private static int CheckBytes(Hop hop) => Math.Max(hop.IsAcknowledged ? 1 : 0, hop.Sender.Air.Crc!.Value);
}
