using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Capacity;

/// <summary>RL7001: the links together keep the channel so busy that packets meet.</summary>
public sealed class ChannelTooBusy() : Rule(new(
    "RL7001", Severity.Warning, "Channel too busy",
    "offered load 2 % (info), 5 % (warning), 50 % (error: nothing gains above it) of the time; first-try loss 1 - e^(-2G) (pure random access, Abramson 1970)", "0.1"))
{
    private const long Noticeable = 20_000;
    private const long Busy = 50_000;
    private const long Peak = 500_000;

    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in PlannedTraffic.Unstated(network))
            yield return Waits(node, "links.every");
        foreach (var channel in PlannedTraffic.Counted(network).GroupBy(hop => hop.Hop.Sender.Air.ChosenChannel!.Value).OrderBy(channel => channel.Key))
        {
            // One sender alone meets nobody.
            if (!channel.Select(hop => hop.Hop.Sender).Distinct().Skip(1).Any())
                continue;
            var loads = new double[16];
            foreach (var hop in channel)
                loads[Math.Min(15, Traffic.Repetitions(hop.Sender, hop.Hop))] += hop.Load;
            var load = Contention.Settled(loads);
            if (load.Millionths > Noticeable)
                yield return TooBusy(network, channel.Key, load, [.. channel]);
        }
    }

    private Finding TooBusy(Network network, int channel, Share load, List<CountedHop> hops)
    {
        var links = hops.GroupBy(hop => hop.Hop.Link).Select(link => (Link: link.Key, Load: link.Sum(hop => hop.Load))).OrderByDescending(link => link.Load).ToList();
        var (heaviest, most) = links[0];
        var atLeast = PlannedTraffic.Unstated(network).Any() ? "at least " : "";
        var limit = new Share(load.Millionths > Peak ? Peak : load.Millionths > Busy ? Busy : Noticeable);
        var heavy = links.Count == 1 ? "" : FormattableString.Invariant($"; `{heaviest.FromText}` to `{heaviest.ToText}` brings {Tenths(new((long)(most * 1e6 / hops.Sum(hop => hop.Load))))} of the first tries");
        return At(
            Stating(heaviest),
            $"channel {channel} is offered {atLeast}{Tenths(load)} of its time, repetitions included, above {limit}: up to {Tenths(Contention.FirstTryLoss(load))} of all packets are lost at the first try",
            $"send less often, at a higher rate, in slots of time, or on a second channel{heavy}") with
        {
            Severity = load.Millionths > Peak ? Severity.Error : load.Millionths > Busy ? Severity.Warning : Severity.Info,
            LinkName = heaviest.Name,
        };
    }

    private static Place Stating(Link link) => link.Every?.Place ?? link.Events?.Place ?? link.Place.FirstLine;

    // A tenth of a percent, and never less than it is.
    private static Share Tenths(Share share) => new((share.Millionths + 999) / 1_000 * 1_000);
}
