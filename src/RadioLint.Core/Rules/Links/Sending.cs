using RadioLint.Model;
using RadioLint.Radio;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Links;

/// <summary>A time that giving a packet up should not come near to.</summary>
/// <param name="What">For messages: `the period`.</param>
internal sealed record SendingBound(string What, Duration Time, Place Place);

/// <summary>How long one packet of a hop may keep its sender busy.</summary>
/// <param name="Spi">Where the clock is not known the fastest that the chip takes is a bound: the upload is short beside the rest.</param>
internal sealed record Sending(Hop Hop, RetryPlan Retry, DataRate Rate, int Width, int Bytes, int Crc, Frequency Spi)
{
    /// <summary>Null while rate, part or retries are open.</summary>
    public static Sending? Of(Network network, Hop hop) =>
        network.Plan.Of(hop.Sender) is { Retry: { } retry, CheckBytes: { } crc, Node: { Part: { } part, Air: { ChosenRate: { } rate, AddressWidth: { } width } } }
            ? new(hop, retry, rate, width.Value, Math.Min(32, RetryPlanner.SentBytes(hop)), crc, hop.Sender.Wiring.Clock ?? part.SpiFastest.Value)
            : null;

    public Duration Packet => OnAir.Packet(Rate, Width, Bytes, Crc);

    /// <summary>The shortest of what is stated; null when nothing is.</summary>
    public SendingBound? Bound => Bounds().OrderBy(bound => bound.Time).FirstOrDefault();

    public Duration GivingUp(int retries) => OnAir.GivingUp(Rate, Width, Bytes, Crc, Retry.Delay, retries, Spi);

    /// <summary>The most repetitions, at least one, that take no longer than half of the bound; null when none do.</summary>
    public int? MostRetries(int below)
    {
        for (var retries = below - 1; retries > 0; retries--)
        {
            if (Bound is not { } bound || GivingUp(retries) * 2 <= bound.Time)
                return retries;
        }
        return null;
    }

    // While a program waits for the outcome nothing else feeds its watchdog; with interrupts it need not wait.
    private IEnumerable<SendingBound> Bounds()
    {
        if (Hop.Link.Every is { } every)
            yield return new("the period", every.Value, every.Place);
        if (Hop.Link.Within is { } within)
            yield return new("the wanted delay", within.Value, within.Place);
        if (Hop.Sender.Service is { Watchdog: { } watchdog, ByInterrupt.Value: false })
            yield return new("the watchdog", watchdog.Value, watchdog.Place);
    }
}
