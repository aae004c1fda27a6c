using System.Collections.Immutable;
using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Spectrum;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Capacity;

/// <summary>RL7002: several nodes report at the same period with nothing that pulls them apart.</summary>
public sealed class SameBeat() : Rule(new(
    "RL7002", Severity.Warning, "Many nodes report on the same beat",
    "own rule: equal periods without jitter stay in collision for 2 T / e when clocks differ by e, and start together after a power cut (derived; MAC-09 of the worked examples)",
    "0.1"))
{
    // Two crystals of the usual kind.
    private static readonly Share Apart = new(20);

    public override IEnumerable<Finding> Check(Network network)
    {
        var beats = network.Links
            .Where(link => link is { Every.Value.Nanoseconds: > 0, RidesInAcknowledgement: false } && !IsJittered(link) && !(link.Offset?.Value.IsSpread ?? false) && link.From.Length > 0)
            .GroupBy(link => (Period: link.Every!.Value, Offset: link.Offset?.Value.Time ?? new Duration(0), Channel: link.From[0].Air.ChosenChannel));
        var hops = new Dictionary<Link, Hop>();
        foreach (var hop in network.Hops.Where(hop => hop.SpeaksForGroup && !hops.ContainsKey(hop.Link)))
            hops.Add(hop.Link, hop);
        foreach (var beat in beats)
        {
            var links = beat.ToList();
            var senders = new HashSet<Node>(links.SelectMany(link => link.From));
            if (senders.Count > 1 && hops.TryGetValue(links[0], out var first))
                yield return Together(network, first, links, senders.Count, beat.Key.Period);
        }
    }

    private Finding Together(Network network, Hop hop, List<Link> links, int senders, Duration period)
    {
        var stuck = Traffic.Busy(network.Plan.Of(hop.Sender), hop) is { } busy
            ? FormattableString.Invariant($"; with clocks 20 ppm apart two of them stay in collision for {Tenths(Contention.StuckFor(busy, Apart))}") : "";
        return At(
            hop, links[0].Every!.Place,
            $"{senders} nodes report every {period} on the same beat: after a power cut all send at once{stuck}",
            $"add `jitter: 10 %`, or `offset: spread` for the members of a group",
            Offer("Add a jitter of 10 %", links.SelectMany(Jittered))) with
        { Related = ImmutableArray.CreateRange(links.Skip(1).Select(link => new RelatedPlace(link.Every!.Place, "the same period"))) };
    }

    private static bool IsJittered(Link link) => link.Jitter is { Value: var jitter } && (jitter.Time?.Nanoseconds > 0 || jitter.Share?.Millionths > 0);

    private static IEnumerable<Edit> Jittered(Link link) =>
        [link.Jitter is { } none ? Edit.Value(none.Place, "10 %") : KeyEdit.After(link.Place, link.Every!.Place, "jitter", "10 %")];

    private static Duration Tenths(Duration time) => new(time.Nanoseconds / 100_000_000 * 100_000_000);
}
