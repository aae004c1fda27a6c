using RadioLint.Findings;
using RadioLint.Model;
using RadioLint.Text;
using RadioLint.Units;

namespace RadioLint.Rules.Fleet;

/// <summary>RL8402: nodes that change over the air would not return to the old plan when they hear nothing.</summary>
public sealed class NoFallBack() : Rule(new(
    "RL8402", Severity.Warning, "Change over the air without a fall-back",
    "3 periods of the node that sends least often (common practice, no published source)", "0.1"))
{
    private const int Periods = 3;

    public override IEnumerable<Finding> Check(Network network)
    {
        if (network.Change is not { By: { Value: "air" } by } change)
            yield break;
        var slowest = Slowest(network);
        var least = slowest is { } period ? new Duration(period.Every.Nanoseconds * Periods) : (Duration?)null;
        var reason = least is null ? "" : FormattableString.Invariant($", at least {InManifest(least.Value)}: {Periods} periods of `{slowest!.Value.Node.Label}`");
        if (change.FallBack is not { Value: { } stated } written)
        {
            Place place = change.FallBack?.Place ?? by.Place;
            yield return At(
                place,
                change.FallBack is null
                    ? (FormattableString)$"nodes change over the air, and no time is stated after which they return to the old plan"
                    : $"nodes change over the air and never return to the old plan, however long they hear nothing",
                $"state `fall-back`{reason}",
                Fixes(change, by.Place, least));
        }
        else if (least is { } needed && stated < needed)
        {
            yield return At(
                written.Place,
                $"nodes return to the old plan after {InManifest(stated)} of silence, and `{slowest!.Value.Node.Label}` sends every {InManifest(slowest.Value.Every)}: {InManifest(needed - stated)} less than {Periods} periods",
                $"write {InManifest(needed)} or more",
                Offer($"Write {InManifest(needed)}", written.Place, InManifest(needed)));
        }
    }

    private static Fix[] Fixes(Manifest.Keys.Change change, Place by, Duration? least)
    {
        if (least is not { } time)
            return [];
        if (change.FallBack is { } none)
            return [Offer($"Write {InManifest(time)}", none.Place, InManifest(time))];
        return KeyEdit.CanFollow(by) ? [Offer($"Fall back after {InManifest(time)}", [KeyEdit.After(change.Place, by, "fall-back", InManifest(time))])] : [];
    }

    // A node is heard, and hears its acknowledgement, as often as its most frequent link says.
    private static (Node Node, Duration Every)? Slowest(Network network)
    {
        var periods = new Dictionary<Node, Duration>();
        foreach (var hop in network.DistinctHops)
        {
            if (hop.Link.Every is { } every && !hop.Sender.IsExternal && (!periods.TryGetValue(hop.Sender, out var known) || every.Value < known))
                periods[hop.Sender] = every.Value;
        }
        (Node, Duration)? slowest = null;
        foreach (var node in network.DistinctNodes)
        {
            if (periods.TryGetValue(node, out var every) && (slowest is not var (_, longest) || every > longest))
                slowest = (node, every);
        }
        return slowest;
    }

    // In the largest unit that says it in whole numbers, as the manifest writes times.
    private static string InManifest(Duration time)
    {
        foreach (var (unit, seconds) in new[] { ("days", 86_400L), ("h", 3_600L), ("min", 60L), ("s", 1L) })
        {
            if (time.Nanoseconds % (seconds * 1_000_000_000) == 0 && time.Nanoseconds / (seconds * 1_000_000_000) is > 0 and var count && (count, unit) is not (1, "days"))
                return FormattableString.Invariant($"{count} {unit}");
        }
        return $"{time}";
    }
}
