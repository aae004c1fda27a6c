using RadioLint.Findings;
using RadioLint.Model;

namespace RadioLint.Rules.Supply;

/// <summary>RL2017: a motor, servo, relay or LED strip pulls at the rail that feeds the radio.</summary>
public sealed class MotorOnRail() : Rule(new(
    "RL2017", Severity.Warning, "Motor, servo, relay or LED strip on the radio's rail",
    "none of them on the radio's rail; common practice, no source", "0.1"))
{
    public override IEnumerable<Finding> Check(Network network)
    {
        foreach (var node in network.DistinctNodes)
        {
            if (node.Supply is not { } supply)
                continue;
            foreach (var load in HasSameSource(supply, node.BoardSupply) ? supply.AlsoFeeds.AddRange(node.BoardSupply!.AlsoFeeds) : supply.AlsoFeeds)
            {
                if (load.Kind == "other")
                    continue;
                var draws = load.Peak is { } peak ? $" of {peak}" : "";
                yield return At(
                    node, load.NamePlace,
                    $"`{load.Name}`, {(load.Kind == "LED strip" ? "an" : "a")} {load.Kind}{draws}, hangs on the rail that feeds the radio of `{node.Label}`: each start and stop dips and spikes it",
                    $"feed `{load.Name}` from a rail of its own and join the grounds at one point");
            }
        }
    }

    // Both straight on the cells, or the radio on the board's input.
    private static bool HasSameSource(Model.Supply supply, Model.Supply? board) => board is not null && supply.From?.Value switch
    {
        SupplySource.Battery => board.From?.Value is SupplySource.Battery,
        SupplySource.BoardPin => supply.Pin?.Value == "RAW",
        _ => false,
    };
}
