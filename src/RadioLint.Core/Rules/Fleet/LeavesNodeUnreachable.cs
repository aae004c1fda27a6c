using RadioLint.Changes;
using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Fleet;

/// <summary>RL8401: on the way to the new plan a node can no longer be reached, or stays behind.</summary>
public sealed class LeavesNodeUnreachable() : Rule(new(
    "RL8401", Severity.Error, "Planned change would leave a node unreachable",
    "own rule: over the air each node is in reach until it changes; by cable or air, none that changes is left out", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        if (network is not { Change: { } change, Before: { } before } || network.ChangeOrder.IsEmpty)
            yield break;
        var fleet = new FleetOrder(before, network);
        var order = network.ChangeOrder.SelectMany(entry => entry.Value).Where(node => !node.IsExternal).Distinct().ToList();
        if (change.By?.Value == "air" && fleet.FirstOutOfReach(order) is { } stranded)
        {
            var entry = network.ChangeOrder.First(entry => entry.Value.Any(node => node.Name == stranded.Node.Name));
            yield return At(
                stranded.Node, entry.Place,
                $"step {stranded.Step} cannot reach `{stranded.Node.Name}`: {Why(stranded)}",
                $"change {Sequence(fleet)}") with
            {
                Related = See(stranded.Node.NamePlace, $"`{stranded.Node.Name}` in the plan that it still has then"),
            };
        }
        var behind = fleet.LeftBehind(order).ToList();
        if (behind.Count > 0)
        {
            var more = behind.Count == 1 ? "" : FormattableString.Invariant($" (and {behind.Count - 1} more)");
            yield return At(
                behind[0].Node, change.Order!.Place.FirstLine,
                $"`{behind[0].Node.Name}`{more} is in no step of `order` and stays behind: {Why(behind[0])}",
                $"add {(behind.Count == 1 ? "it" : "them")}: change {Sequence(fleet)}");
        }
    }

    private static string Why(Stranded stranded) => stranded.Peer is null || stranded.Differences.IsEmpty
        ? "no link to it is left then"
        : $"between it and `{stranded.Peer.Name}` stands {string.Join(", ", stranded.Differences)}";

    private static string Sequence(FleetOrder fleet)
    {
        const int most = 6;
        var names = fleet.Safe().Select(node => $"`{node.Name}`").ToList();
        return names.Count <= most
            ? string.Join(", then ", names)
            : $"{string.Join(", then ", names.Take(most - 1))} and so on, from the farthest to the nearest, {names[names.Count - 1]} last";
    }
}
