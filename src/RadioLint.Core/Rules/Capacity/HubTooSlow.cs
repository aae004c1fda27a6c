using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Units;

namespace RadioLint.Rules.Capacity;

/// <summary>RL7003: packets come faster than the receiver's program can take them.</summary>
public sealed class HubTooSlow() : Rule(new(
    "RL7003", Severity.Warning, "Hub cannot keep up",
    "50 % of the time for reading packets over SPI and for what the program does with each (own rule: the other half is for bursts)", "0.1"))
{
    // A packet read over SPI: its payload behind a command byte, and three commands of two bytes (length, FIFO_STATUS, STATUS).
    private const int MoreBytes = 7;

    // Below ten packets a second a program would have to spend 50 ms on each before it mattered.
    private const double Many = 10;

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var hub in PlannedTraffic.Counted(network).GroupBy(hop => hop.Hop.Receiver))
        {
            var (node, packets) = (hub.Key, hub.Sum(hop => hop.PacketsPerSecond));
            if (node.Service?.Takes is not { } takes)
            {
                if (packets >= Many)
                    yield return Waits(node, "service.takes");
                continue;
            }
            var spi = hub.Sum(hop => hop.PacketsPerSecond * Reading(node, hop.Hop).Nanoseconds / 1e9);
            var share = new Share((long)Math.Round((spi + (packets * takes.Value.Nanoseconds / 1e9)) * 1e6, MidpointRounding.AwayFromZero));
            if (share.Millionths > 500_000)
            {
                yield return At(
                    node, takes.Place,
                    $"`{node.Label}` is busy {Tenths(share)} of the time with {PerSecond(packets)} packets a second, {takes.Value} each besides SPI, above 50 %",
                    $"do less with each packet while others wait, read it and leave the rest for later, or let the senders report less often");
            }
        }
    }

    private static Duration Reading(Node node, Hop hop) => node.Wiring.Clock is { Hertz: > 0 } clock
        ? new(((hop.Link.Payload?.Size ?? 0) + MoreBytes) * 8 * 1_000_000_000L / clock.Hertz)
        : new(0);

    private static Share Tenths(Share share) => new((share.Millionths + 999) / 1_000 * 1_000);

    private static string PerSecond(double packets) => Quantity.Fixed((long)Math.Round(packets * 10, MidpointRounding.AwayFromZero), 1, 0);
}
